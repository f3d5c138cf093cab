import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, test } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'dummyrun-clock-'));

// The clock of the day, put back by an hour half a second after the program's start; the steady clock goes on.
const BACK = `
const { Date: Day, performance } = globalThis;
const now = () => Day.now() - (performance.now() > 500 ? 3_600_000 : 0);
globalThis.Date = class extends Day {
  constructor(...given) { super(...(given.length > 0 ? given : [now()])); }
  static now() { return now(); }
};
`;

test('a study on a machine whose clock is put back ends in its time, and tells none that is not so', () => {
  const back = join(folder, 'back.mjs');
  writeFileSync(back, BACK);
  const out = join(folder, 'heron');
  const { status, stdout: told } = spawnSync(
    process.execPath,
    [resolve('dist/cli.js'), 'explore', 'examples/heron.yaml', '--for', '2s', '--workers', '1', '--out', out],
    { encoding: 'utf8', env: { ...process.env, NODE_OPTIONS: `--import ${pathToFileURL(back)}` } },
  );
  // Of the few that are scored on a slow machine none need work.
  expect(status).toBeLessThanOrEqual(1);
  const [, scored, seconds] = /Scored ([\d,]+) in ([\d.]+) s\./.exec(told) ?? [];
  expect(Number(scored.replaceAll(',', ''))).toBeGreaterThan(0);
  expect(Number(seconds)).toBeGreaterThanOrEqual(2);
  expect(told).not.toMatch(/NaN|Infinity|[-−]\d+ s\b/);
  expect(existsSync(join(out, 'report.html'))).toBe(true);
  expect(readFileSync(join(out, 'scored.jsonl'), 'utf8').trim().split('\n').length).toBeGreaterThan(1);
});
