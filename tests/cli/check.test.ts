import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { check as checkHere } from '../../src/cli/check.js';
import { InputError } from '../../src/figure/text/input-error.js';
import { folderWith, run, runHere, TENT } from './support.js';

const folder = folderWith({ 'tent.yaml': TENT });
const check = (...args: string[]) => runHere(folder, 'check', 'tent.yaml', ...args);

test('a figure as it starts: ranges at their middle, a choice at its first', async () => {
  // foot 35, side 80: 115 mm of the 148 mm that A5 is wide; stands 80 mm, with 0.1 % for steps of 2°.
  const { code, out } = await check();
  expect(code).toBe(0);
  expect(out).toMatch(/^tent works/);
  expect(out).toMatch(/met +stands +(80\.00|79\.9\d) mm, wanted: at least 40\.00 mm/);
});

test('dims set by hand: it does not work, and says by how much', async () => {
  const { code, out } = await check('--set', 'foot=55', '--set', 'side = 100');
  expect(code).toBe(1);
  expect(out).toMatch(/BROKEN +overhang +7\.00 mm, at most 0\.00 mm/);
});

test('sides that do not reach one another lock it where it stands open', async () => {
  const { code, out } = await check('--set', 'foot=60', '--set', 'side=20');
  expect(code).toBe(1);
  expect(out).toMatch(/lock +tent .*180\.0°/);
  expect(out).toMatch(/not known +overhang +not computed/);
});

test('what can not be built says why, does not work, and has no poses', async () => {
  const path = 'steep.yaml';
  writeFileSync(join(folder, path), TENT.replace('length: long', 'length: foot - 34'));
  const { code, out, err } = await run(folder, 'check', path, '--set', 'foot=12', '--poses', 'none.json');
  expect(code).toBe(1);
  expect(out).toMatch(/^steep cannot be built: .+\.\n$/);
  expect(err).toContain('No poses are written');
});

test('--json prints the scorecard alone, the same that --poses holds', async () => {
  const { code, out } = await check('--set', 'long=90', '--json', '--poses', 'poses.json');
  expect(code).toBe(0);
  const card = JSON.parse(out);
  expect(card).toMatchObject({ works: true, cannotBuild: null, clash: { deepest: 0 }, locks: null });
  const poses = JSON.parse(readFileSync(join(folder, 'poses.json'), 'utf8'));
  expect(poses.format).toBe('poses 1');
  expect(poses.scorecard).toEqual(card);
  expect(poses.frames[0].poses.length).toBe(poses.panels.length);
});

test('--open writes the page of one dummy, that moves, with every catch in it, and opens it', async () => {
  // Tents that lean towards one another, two and two.
  const pair = (at: number) => `
  - { name: back ${at}, kind: parallel-fold, at: ${at}, length: 50, glue: [20, 40], widths: [60, 40] }
  - { name: front ${at}, kind: parallel-fold, at: ${at + 10}, length: 50, glue: [40, 20], widths: [40, 60] }`;
  const crowd = `page: A5\nparts:${pair(20)}${pair(110)}\n`;
  writeFileSync(join(folder, 'crowd.yaml'), crowd);
  // What opens pages here opens none.
  const bin = join(folder, 'bin');
  mkdirSync(bin);
  for (const opener of ['open', 'xdg-open']) writeFileSync(join(bin, opener), '#!/bin/sh\n', { mode: 0o755 });
  vi.stubEnv('PATH', bin);
  const { code, out } = await runHere(folder, 'check', 'crowd.yaml', '--open', '--json').finally(
    vi.unstubAllEnvs,
  );
  expect(code).toBe(1);
  const { catches } = JSON.parse(out) as { catches: { between: string[]; depth: number }[] };
  expect(catches.length).toBeGreaterThan(1);
  const page = readFileSync(join(folder, 'results', 'crowd', 'check.html'), 'utf8');
  const listed = page.slice(page.indexOf('Every catch, in the order'));
  for (const { between, depth } of catches)
    expect(listed).toContain(`<td>${between.join(' and ')}</td><td>${depth.toFixed(2)} mm</td>`);
});

test.each([
  [['foot'], "write dim=value, such as 'height=32.5'"],
  [['=3'], "write dim=value, such as 'height=32.5'"],
  [['foot=3', 'foot=4'], 'set it once'],
  [['foot=1000'], 'give a number from 10 to 60'],
  [['fot=30'], "did you mean 'foot'?"],
  [['long=50'], 'give one of 40, 60, 90'],
])('--set %j is refused in words', async (set, message) => {
  const scored = () =>
    checkHere(join(folder, 'tent.yaml'), {
      set,
      damaged: false,
      json: false,
      tolerance: false,
      trim: false,
      open: false,
    });
  await expect(scored).rejects.toThrow(message);
  await expect(scored).rejects.toThrow(InputError);
});

test.each([
  [['--set', 'foot=1000'], '--set  foot: found'],
  [['--poses', 'no/such/folder/p.json'], "--poses  found no folder 'no/such/folder'"],
  [['--json=yes'], '--json'],
  [['--sigma-mm', '0.1'], '--sigma-mm  found it without --tolerance; give --tolerance, too'],
  [['--sigma-degrees', '1', '--json'], '--sigma-degrees  found it without --tolerance'],
])('%j ends with code 2 and one line', async (args, message) => {
  const { code, err } = await check(...args);
  expect(code).toBe(2);
  expect(err).toContain(message);
  expect(err.trim().split('\n').length).toBeLessThanOrEqual(2);
});

test('poses replace neither the figure file nor a drawing of it', async () => {
  const svg = '<svg width="9mm" height="9mm" viewBox="0 0 9 9"><path id="p" d="M0 0H9V9H0Z"/></svg>';
  const flag =
    '  - { name: flag, kind: glued-piece, on: tent left, at: [5, 5], outline: { svg: flag.svg, path: p } }\n';
  const flagged = folderWith({ 'flag.svg': svg, 'flagged.yaml': TENT.replace('wants:', `${flag}wants:`) });
  for (const file of ['flag.svg', 'flagged.yaml']) {
    const { code, err } = await runHere(flagged, 'check', 'flagged.yaml', '--poses', file);
    expect([code, err]).toEqual([2, expect.stringMatching(/^--poses {2}found .*give another name/)]);
  }
  expect(readFileSync(join(flagged, 'flag.svg'), 'utf8')).toBe(svg);
});
