import { readdirSync } from 'node:fs';
import { afterEach, expect, test } from 'vitest';
import { endAll, folderWith, runHere, TENT } from './support.js';

afterEach(endAll);

const STEEP = TENT.replace('length: long', 'length: foot - 34');

test.each([
  [['--bleed', '2'], '--bleed  found it without --printer; give --printer, too'],
  [['--spot-glue', 'Paste'], '--spot-glue  found it without --printer'],
  [['--set', 'foot=12'], 'steep.yaml:9:69  parts.0.length: found a dummy that cannot be built'],
])('sheets %j are refused in words, with the line', async (args, message) => {
  const folder = folderWith({ 'steep.yaml': STEEP });
  const { code, out, err } = await runHere(folder, 'sheets', 'steep.yaml', ...args);
  expect([code, out]).toEqual([2, '']);
  expect(err).toContain(message);
  expect(readdirSync(folder)).toEqual(['steep.yaml']);
});

test('sheets of a dummy that does not work say so, before anything is cut', async () => {
  const folder = folderWith({ 'tent.yaml': TENT });
  const works = await runHere(folder, 'sheets', 'tent.yaml');
  expect([works.code, works.out.includes('does not work')]).toEqual([0, false]);
  const { code, out } = await runHere(folder, 'sheets', 'tent.yaml', '--set', 'side=36');
  expect(code).toBe(0);
  expect(out).toContain("Before you cut\n  This dummy does not work as its file asks: misses 'stands'.");
});
