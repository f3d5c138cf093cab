#!/usr/bin/env node
/**
 * Sets up what is missing, and nothing else: packages from the lock file, then the compiled program.
 * Each step leaves a stamp holding a hash of what it was made from, so that a second call does no work.
 * Uses only Node itself, since nothing is installed when it first runs.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
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

function step(stamp, inputs, message, work) {
  const path = join(root, stamp);
  const wanted = hashOf(inputs);
  if (existsSync(path) && readFileSync(path, 'utf8') === wanted) return;
  console.error(message);
  work();
  writeFileSync(path, wanted);
}

const lock = ['package.json', 'package-lock.json'].map((file) => join(root, file));
step('node_modules/.dummyrun-installed', lock, 'Installing packages from the lock file …', () =>
  run('npm', ['ci', '--include=dev', '--no-fund', '--no-audit', '--loglevel=error']),
);

const sources = [
  ...lock,
  ...['tsconfig.json', 'tsconfig.page.json', 'scripts/bundle.mjs'].map((file) => join(root, file)),
  ...filesUnder('src'),
  ...filesUnder('workers'),
];
step('dist/.dummyrun-built', sources, 'Building …', () => {
  rmSync(join(root, 'dist'), { recursive: true, force: true });
  run('npm', ['run', '--silent', 'build']);
});
