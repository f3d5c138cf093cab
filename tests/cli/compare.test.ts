import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { csvParse } from 'd3-dsv';
import { afterEach, expect, test, vi } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { Scorer } from '../../src/score/scorer.js';
import { TENT as PAIR } from '../compare/support.js';
import { endAll, folderWith, runHere, started } from './support.js';

afterEach(endAll);

/** Its sides are at most 45 mm wide, so that it never stands higher. */
const LOW = PAIR.replace('foot: { from: 20, to: 60 }', 'foot: { from: 20, to: 30 }').replace(
  'to: 60 }',
  'to: 15 }',
);
const files = { 'high.yaml': PAIR, 'low.yaml': LOW };

/** One comparison that nobody disturbed, for all that is compared with it. */
const folder = folderWith(files);
const WEIGH = ['compare', 'high.yaml', 'low.yaml', '--samples', '10'];

test('weighs two figure files: words, page, table, JSON', async () => {
  const { code, out } = await runHere(folder, ...WEIGH, '--out', 'out');
  expect(code).toBe(0);
  expect(out).toMatch(/high wins at: .*stands \d+\.\d\d mm against low \d+\.\d\d mm/);
  // The maker's own dummy of each, beside the best that was found, which may be that one.
  for (const [file, text] of Object.entries(files)) {
    const figure = compileFigure(parseFigure(text, file));
    const { works, desirability } = new Scorer(figure).score(figure.start);
    const own = `${file.replace('.yaml', '')} as its file has it ${works ? `works: desirability ${desirability?.toFixed(2)}` : 'does not work'}`;
    expect(out).toContain(own);
    const best = Number(/best found (?:has desirability )?(\d\.\d\d)/.exec(out.slice(out.indexOf(own)))?.[1]);
    expect(best).toBeGreaterThanOrEqual(works ? Number(desirability?.toFixed(2)) : 0);
  }
  expect(readdirSync(join(folder, 'out')).sort()).toEqual(['compare.html', 'compare.json', 'verdict.csv']);
  const rows = csvParse(readFileSync(join(folder, 'out', 'verdict.csv'), 'utf8'));
  const stands = rows.filter(({ measure }) => measure === 'stands');
  expect(stands.map(({ variant, winner }) => [variant, winner])).toEqual([
    ['high', 'high'],
    ['low', 'high'],
  ]);
  expect(Object.keys(stands[0])).toEqual(expect.arrayContaining(['seed 1', 'seed 5', 'median', 'chance']));
  const json = JSON.parse(readFileSync(join(folder, 'out', 'compare.json'), 'utf8'));
  expect(json).toMatchObject({ format: 'compare 1', seeds: [1, 2, 3, 4, 5], samples: 10 });
});

test('weighs the options of a choice, and prints JSON alone when asked', async () => {
  const text = PAIR.replace('dims:', 'dims:\n  long: { choose: [40, 60] }').replace(
    'length: 60',
    'length: long',
  );
  const folder = folderWith({ 'tent.yaml': text });
  const args = ['compare', 'tent.yaml', '--each', 'long', '--samples', '10', '--json'];
  const { code, out } = await runHere(folder, ...args);
  expect(code).toBe(0);
  const json = JSON.parse(out);
  expect(json.variants.map(({ name }: { name: string }) => name)).toEqual(['long 40', 'long 60']);
  // Sides and tabs of a shorter tent take less card, whatever else they are.
  const works = json.measures.find(({ name }: { name: string }) => name === 'plain samples that work');
  expect(works.winner).toBeNull();
  expect(existsSync(join(folder, 'results', 'tent', 'compare', 'compare.html'))).toBe(true);
});

test.each([
  [['high.yaml'], 'give 2 to 6, or one with --each'],
  [['high.yaml', 'low.yaml', '--each', 'foot'], 'give one figure file'],
  [['high.yaml', '--each', 'foot'], 'there are no choices'],
  [['high.yaml', 'low.yaml', '--seeds', '4'], 'from 5 to 10'],
  [['high.yaml', 'other.yaml'], "'stands' has least 25, not 20"],
])('compare %j is refused in words', async (args, message) => {
  const folder = folderWith({ ...files, 'other.yaml': PAIR.replace('least: 20', 'least: 25') });
  const { code, err } = await runHere(folder, 'compare', ...args);
  expect(code).toBe(2);
  expect(err).toContain(message);
});

test('killed at any moment, it goes on to the same verdict', async () => {
  const { child, ended } = started(folder, [...WEIGH, '--out', 'killed', '--resume', '--workers', '1']);
  const log = join(folder, 'killed', 'unfinished', 'scored.jsonl');
  await vi.waitUntil(() => existsSync(log) && readFileSync(log, 'utf8').split('\n').length > 60, {
    timeout: 60_000,
    interval: 20,
  });
  child.kill('SIGKILL');
  await ended;
  expect((await runHere(folder, ...WEIGH, '--out', 'killed', '--resume')).code).toBe(0);
  const read = (out: string, name: string) => readFileSync(join(folder, out, name), 'utf8');
  for (const name of ['verdict.csv', 'compare.json']) expect(read('killed', name)).toBe(read('out', name));
});

test.each([
  ['--samples', '50001'],
  ['--seeds', '4'],
  ['--seeds', '11'],
])(
  '%s %s is refused before anything is scored: it would fill the memory, or tell nothing',
  async (...option) => {
    const { code, err } = await runHere(folderWith({}), 'compare', 'a.yaml', 'b.yaml', ...option);
    expect([code, err]).toEqual([2, expect.stringContaining('Give a whole number from')]);
  },
);
