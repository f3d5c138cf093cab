import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { readFigure } from '../../src/figure/read.js';
import { LIMITS } from '../../src/limits/index.js';
import { rowWords } from '../../src/report/words/row-words.js';
import { whatFails } from '../../src/report/words/what-fails.js';
import { Scorer } from '../../src/score/scorer.js';
import { Sobol } from '../../src/search/sobol.js';
import { Space } from '../../src/search/variables.js';
import { variablesOf } from '../../src/study/figure-variables.js';
import { Layout } from '../../src/study/row.js';

/** What takes more to look at than how a figure moves and lies shut. */
const LATE: readonly string[] = LIMITS.filter(({ late }) => late).map(({ name }) => name);

const heron = compileFigure(readFigure(fileURLToPath(new URL('../../examples/heron.yaml', import.meta.url))));
const space = new Space(variablesOf(heron));
const sobol = new Sobol(heron.free.length, 1);
const scorer = new Scorer(heron);
const herons = Array.from({ length: 120 }, (_, i) => {
  const vector = space.toValues(sobol.point(i));
  return { whole: scorer.score(vector), short: scorer.scoreInShort(vector) };
});
const motionFails = ({ whole: { wants, limits } }: (typeof herons)[number]) =>
  wants.some(({ met }) => !met) || limits.some(({ name, met }) => !met && !LATE.includes(name));

test('in short, what works and what fails by its card alone is scored as ever', () => {
  const others = herons.filter((each) => !motionFails(each));
  expect(others.some(({ whole }) => whole.works)).toBe(true);
  expect(others.some(({ whole }) => !whole.works)).toBe(true);
  for (const { whole, short } of others) expect(short).toEqual(whole);
});

test('what fails by its motion, or misses a want, is not looked at further, and says so', () => {
  const failing = herons.filter((each) => each.whole.cannotBuild === null && motionFails(each));
  expect(failing.length).toBeGreaterThan(20);
  for (const { whole, short } of failing) {
    expect(short).toMatchObject({ works: false, violation: null, desirability: null, force: null });
    expect(short.wants).toEqual(whole.wants);
    expect(short.limits.map(({ name }) => name)).toEqual(whole.limits.map(({ name }) => name));
    short.limits.forEach((limit, i) => {
      if (LATE.includes(limit.name))
        expect(limit).toMatchObject({ value: null, met: false, unknown: { because: 'it fails before' } });
      else expect(limit).toEqual(whole.limits[i]);
    });
    expect({ bind: short.bind, book: short.book, flat: short.flat }).toEqual({
      bind: whole.bind,
      book: whole.book,
      flat: whole.flat,
    });
    expect(whatFails(short)).not.toMatch(/not looked at/);
  }
});

test('a table leaves empty what was not looked at, with the reason, and calls no limit broken for it', () => {
  const layout = new Layout(herons[0].whole);
  const missing = herons.find((each) => each.whole.cannotBuild === null && motionFails(each));
  if (missing === undefined) throw new Error('no heron fails by its motion');
  const { short } = missing;
  const row = layout.rowOf(short, rowWords(short));
  const cells = new Map(layout.cells(row).map((cell, i) => [layout.headers[i], cell]));
  expect(row.outcome).toBe('fails');
  for (const header of ['desirability', 'violation', 'catch (mm)', 'force (N)', 'stray glue (mm²)'])
    expect([header, cells.get(header)]).toEqual([header, Number.NaN]);
  expect(cells.get('reason')).toBe(
    'not looked at further, since it fails already by how it moves and lies shut',
  );
  const broken = [...short.wants, ...short.limits]
    .filter(({ name, met }) => !met && !LATE.includes(name))
    .map(({ name }) => name);
  expect(cells.get('not met')).toBe(broken.join('; '));
});
