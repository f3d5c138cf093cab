import { readdirSync } from 'node:fs';
import { afterEach, expect, test } from 'vitest';
import { endAll, folderWith, run, TENT } from './support.js';

afterEach(endAll);

const STEEP = TENT.replace('length: long', 'length: foot - 34');

test.each([
  [['--bleed', '2'], '--bleed  found it without --printer; give --printer, too'],
  [['--spot-glue', 'Paste'], '--spot-glue  found it without --printer'],
  [['--set', 'foot=12'], 'steep.yaml:9:69  parts.0.length: found a dummy that cannot be built'],
])('sheets %j are refused in words, with the line', async (args, message) => {
  const folder = folderWith({ 'steep.yaml': STEEP });
  const { code, out, err } = await run(folder, 'sheets', 'steep.yaml', ...args);
  expect([code, out]).toEqual([2, '']);
  expect(err).toContain(message);
  expect(readdirSync(folder)).toEqual(['steep.yaml']);
});
