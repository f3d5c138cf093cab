#!/usr/bin/env node
/**
 * Sets up what is missing, and nothing else: packages from the lock file, then the compiled program.
 * Each step leaves a stamp of what it was made from, so that a second call does no work, also when the project was moved
 * or copied meanwhile. What worked before stays until something better is there: packages are installed beside it and
 * then change places with it. Two calls at once (say, the demo and the tests in two terminals) would take each other's
 * packages away: one waits for the other. Uses only Node itself, since nothing is installed when it first runs.
 */
import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { faultOfBuild, hashOf, missingPackage, ROOT, VERSIONS } from './built.mjs';

/** As `CANNOT_TELL` of the commands: nothing was found out about any figure. */
const FAILED = 4;

const at = (path) => join(ROOT, path);
const remove = (path) => rmSync(at(path), { recursive: true, force: true });

const LOCK = '.setting-up';
/** Where packages are installed, and where those go that they replace, until all is done. */
const BESIDE = '.setting-up-packages';
const BEFORE = '.setting-up-before';
const INSTALLED = 'node_modules/.dummyrun-installed';

let locked = false;
process.on('exit', () => {
  if (!locked) return;
  remove(BESIDE);
  remove(LOCK);
});
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => process.exit(130));

function fail(line) {
  console.error(line);
  process.exit(FAILED);
}

/** @returns whether the command did its work; npm has said why where it did not */
function npm(folder, ...args) {
  // npm is a .cmd file on Windows, which only a shell can start; every argument here is our own.
  const shell = process.platform === 'win32';
  return spawnSync('npm', args, { cwd: at(folder), stdio: 'inherit', shell }).status === 0;
}

/** Takes the lock, or waits for whoever holds it. One whose process is gone, or that is an hour old, is taken over. */
function alone() {
  for (let waited = false; !locked; waited = true) {
    try {
      writeFileSync(at(LOCK), String(process.pid), { flag: 'wx' });
      locked = true;
    } catch (error) {
      if (error.code !== 'EEXIST') throw error;
      if (isAbandoned()) remove(LOCK);
      else if (!waited) console.error('Waiting for another set-up of this folder …');
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 300);
    }
  }
}

function isAbandoned() {
  try {
    if (Date.now() - statSync(at(LOCK)).mtimeMs > 3_600_000) return true;
    const holder = Number(readFileSync(at(LOCK), 'utf8'));
    // Empty for the instant between its making and its writing.
    if (holder > 0) process.kill(holder, 0);
    return false;
  } catch (error) {
    return error.code === 'ESRCH';
  }
}

/** Why the packages can't stay as they are, or null. */
function faultOfPackages() {
  if (!existsSync(at('node_modules'))) return 'Packages are not installed.';
  const missing = missingPackage();
  if (missing !== null) return `${missing} is missing.`;
  const fits = existsSync(at(INSTALLED)) && readFileSync(at(INSTALLED), 'utf8') === hashOf(VERSIONS);
  return fits ? null : 'The packages are not those of the lock file.';
}

function install() {
  // An earlier set-up may have been ended between its two moves.
  if (!existsSync(at('node_modules')) && existsSync(at(BEFORE))) renameSync(at(BEFORE), at('node_modules'));
  const why = faultOfPackages();
  if (why === null) return;
  console.error(`${why} Installing from the lock file …`);
  for (const path of [BESIDE, BEFORE]) remove(path);
  mkdirSync(at(BESIDE));
  for (const file of [...VERSIONS, '.npmrc'])
    if (existsSync(at(file))) copyFileSync(at(file), at(`${BESIDE}/${file}`));
  if (!npm(BESIDE, 'ci', '--include=dev', '--no-fund', '--no-audit', '--loglevel=error')) {
    const left = existsSync(at('node_modules')) ? ' What was installed before is still there.' : '';
    fail(`The packages could not be installed: npm says above why.${left}`);
  }
  // A project without any package gets no folder.
  mkdirSync(at(`${BESIDE}/node_modules`), { recursive: true });
  writeFileSync(at(`${BESIDE}/${INSTALLED}`), hashOf(VERSIONS));
  if (existsSync(at('node_modules'))) renameSync(at('node_modules'), at(BEFORE));
  renameSync(at(`${BESIDE}/node_modules`), at('node_modules'));
  remove(BEFORE);
}

function build() {
  const fault = faultOfBuild();
  if (fault === null) return;
  console.error(fault.why === 'dist/ is not built' ? 'Building …' : `${fault.why}: building again …`);
  remove('dist');
  if (!npm('.', 'run', '--silent', 'build')) fail('The program could not be built: it is said above why.');
  chmodSync(at('dist/cli.js'), 0o755);
}

if (faultOfPackages() !== null || faultOfBuild() !== null) {
  try {
    alone();
    install();
    build();
  } catch (error) {
    // Any of them: nothing can be written, or moved, in the project's folder.
    const what = faultOfPackages() ?? `${faultOfBuild()?.why}.`;
    fail(`${what} It can't be set up in ${ROOT}: ${error.message}`);
  }
}
