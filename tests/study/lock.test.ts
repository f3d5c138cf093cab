import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { takeLock } from '../../src/study/lock.js';

const path = () => join(mkdtempSync(join(tmpdir(), 'dummyrun-lock-')), 'lock');

test('held, it refuses; given back, it is free, and nothing is left', () => {
  const lock = path();
  const giveBack = takeLock(lock);
  expect(() => takeLock(lock)).toThrow(`Another run (process ${process.pid})`);
  giveBack();
  takeLock(lock)();
  expect(readdirSync(dirname(lock))).toEqual([]);
});

test('a lock whose process is dead is taken over', () => {
  const lock = path();
  const { pid } = spawnSync(process.execPath, ['--version']);
  writeFileSync(lock, JSON.stringify({ pid, host: hostname(), born: null }));
  const giveBack = takeLock(lock);
  expect(JSON.parse(readFileSync(lock, 'utf8')).pid).toBe(process.pid);
  giveBack();
});

test.runIf(existsSync('/proc/self/stat'))('so is one whose number another process got since', () => {
  const lock = path();
  writeFileSync(lock, JSON.stringify({ pid: process.ppid, host: hostname(), born: 'an earlier boot 123' }));
  takeLock(lock)();
});

test('a lock of a living process of ours is respected', async () => {
  const lock = path();
  const other = spawn(process.execPath, ['-e', 'setInterval(() => {}, 1000)']);
  writeFileSync(lock, JSON.stringify({ pid: other.pid, host: hostname(), born: null }));
  expect(() => takeLock(lock)).toThrow(`process ${other.pid}`);
  other.kill('SIGKILL');
  await once(other, 'exit');
  takeLock(lock)();
});

test('a lock of another machine is respected, and the message says how to get rid of it', () => {
  const lock = path();
  writeFileSync(lock, JSON.stringify({ pid: 1, host: 'bench-by-the-window', born: null }));
  expect(() => takeLock(lock)).toThrow(/bench-by-the-window.*delete .*lock/);
});

test('a damaged lock is taken over', () => {
  const lock = path();
  writeFileSync(lock, '{"pid":');
  takeLock(lock)();
});

test('giving back late does not take the lock from whoever holds it now', () => {
  const lock = path();
  const giveBack = takeLock(lock);
  writeFileSync(lock, 'theirs');
  giveBack();
  expect(readFileSync(lock, 'utf8')).toBe('theirs');
});
