#!/usr/bin/env node
/**
 * Sets up what is missing, and nothing else: packages from the lock file, then the compiled program.
 * Each step leaves a stamp holding a hash of what it was made from, so that a second call does no work. Two calls at
 * once (say, the demo and the tests in two terminals) would take each other's packages away: one waits for the other.
 * Uses only Node itself, since nothing is installed when it first runs.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { chmodSync, existsSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');

function filesUnder(folder) {
  return readdirSync(join(root, folder), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
    .sort();
}

function hashOf(files) {
  const hash = createHash('sha256');
  for (const file of files) hash.update(file).update(readFileSync(file));
  return hash.digest('hex');
}

function run(command, args) {
  // npm is a .cmd file on Windows, which only a shell can start; every argument here is our own.
  const { status } = spawnSync(command, args, {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
  });
  if (status !== 0) process.exit(status ?? 1);
}

const lock = join(root, '.setting-up');
let locked = false;
process.on('exit', () => locked && rmSync(lock, { force: true }));
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => process.exit(130));

/** Takes the lock, or waits for whoever holds it. One whose process is gone, or that is an hour old, is taken over. */
function alone() {
  for (let waited = false; !locked; waited = true) {
    try {
      writeFileSync(lock, String(process.pid), { flag: 'wx' });
      locked = true;
    } catch (error) {
      if (error.code !== 'EEXIST') throw error;
      if (isAbandoned()) rmSync(lock, { force: true });
      else if (!waited) console.error('Waiting for another set-up of this folder …');
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 300);
    }
  }
}

function isAbandoned() {
  try {
    if (Date.now() - statSync(lock).mtimeMs > 3_600_000) return true;
    const holder = Number(readFileSync(lock, 'utf8'));
    // Empty for the instant between its making and its writing.
    if (holder > 0) process.kill(holder, 0);
    return false;
  } catch (error) {
    return error.code === 'ESRCH';
  }
}

function step(stamp, inputs, message, work) {
  const path = join(root, stamp);
  const isDone = () => existsSync(path) && readFileSync(path, 'utf8') === hashOf(inputs);
  if (isDone()) return;
  alone();
  if (isDone()) return;
  console.error(message);
  work();
  writeFileSync(path, hashOf(inputs));
}

const versions = ['package.json', 'package-lock.json'].map((file) => join(root, file));
step('node_modules/.dummyrun-installed', versions, 'Installing packages from the lock file …', () =>
  run('npm', ['ci', '--include=dev', '--no-fund', '--no-audit', '--loglevel=error']),
);

const sources = [
  ...versions,
  ...['tsconfig.json', 'tsconfig.page.json', 'scripts/bundle.mjs'].map((file) => join(root, file)),
  ...filesUnder('src'),
  ...filesUnder('workers'),
];
step('dist/.dummyrun-built', sources, 'Building …', () => {
  rmSync(join(root, 'dist'), { recursive: true, force: true });
  run('npm', ['run', '--silent', 'build']);
  chmodSync(join(root, 'dist/cli.js'), 0o755);
});
