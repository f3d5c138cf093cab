import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compileFigure } from '../../../src/figure/figure.js';
import { parseFigure } from '../../../src/figure/text/source.js';
import { cell } from '../../../src/report/live/cells.js';
import { type Column, columnsOf } from '../../../src/report/live/columns.js';
import { forFailing, forWorking, NO_FILTERS, passing, withBounds } from '../../../src/report/live/filters.js';
import { frontOf } from '../../../src/report/live/front.js';
import { Signal } from '../../../src/report/live/signal.js';
import { thin } from '../../../src/report/live/thin.js';
import { ticks } from '../../../src/report/live/ticks.js';
import { Upright } from '../../../src/report/live/upright.js';

const WORKS = 0;
const FAILS = 1;
const NOT_BUILT = 2;

function columnOf(values: readonly number[], more: Partial<Column> = {}): Column {
  const known = values.filter((value) => !Number.isNaN(value));
  return {
    name: 'height',
    unit: 'mm',
    kind: 'want',
    options: null,
    better: 'more',
    values: Float64Array.from(values),
    least: Math.min(...known),
    most: Math.max(...known),
    ...more,
  };
}

/** Candidates with two scores each, of which only outcomes and `met` matter here. */
function candidatesOf(outcomes: readonly number[], met: readonly number[]) {
  return {
    count: outcomes.length,
    number: Uint32Array.from(outcomes, (_, i) => i + 1),
    rank: Uint32Array.from(outcomes, (_, i) => i + 1),
    stage: new Uint8Array(outcomes.length),
    outcome: Uint8Array.from(outcomes),
    // Works, stiff, jams or tears, and not known, in turn.
    grade: Uint8Array.from(outcomes, (_, i) => i % 4),
    vectors: new Float64Array(),
    desirability: new Float32Array(),
    values: new Float32Array(),
    met: Uint8Array.from(met),
  };
}

describe('filters', () => {
  const candidates = candidatesOf([WORKS, FAILS, FAILS, NOT_BUILT], [1, 1, 0, 1, 1, 0, 0, 0]);
  const columns = [
    columnOf([1, 2, 3, Number.NaN]),
    columnOf([0, 1, 0, 1], { kind: 'dim', options: ['in', 'out'] }),
  ];

  test('without any, all pass', () => {
    expect(passing(candidates, columns, NO_FILTERS)).toEqual([0, 1, 2, 3]);
  });
  test('only those that work', () => {
    expect(passing(candidates, columns, { ...NO_FILTERS, worksOnly: true })).toEqual([0]);
  });
  test('only those whose page turns so: what is not known passes for none', () => {
    expect(passing(candidates, columns, { ...NO_FILTERS, grade: 'stiff' })).toEqual([1]);
    expect(passing(candidates, columns, { ...NO_FILTERS, grade: 'jams or tears' })).toEqual([2]);
    expect(passing(candidates, columns, { ...NO_FILTERS, grade: 'works' })).toEqual([0]);
  });
  test('those that fail at a want or limit: what was not built fails at nothing in particular', () => {
    expect(passing(candidates, columns, { ...NO_FILTERS, failsAt: 0 })).toEqual([1]);
    expect(passing(candidates, columns, { ...NO_FILTERS, failsAt: 1 })).toEqual([2]);
  });
  test('what works fails at nothing: the one asked last counts, and never both', () => {
    const working = forWorking(NO_FILTERS, true);
    expect(passing(candidates, columns, forFailing(working, 1))).toEqual([2]);
    expect(passing(candidates, columns, forWorking(forFailing(working, 1), true))).toEqual([0]);
    expect(forFailing(working, null)).toEqual(working);
  });
  test('both ends of a range are in; what was not computed passes no range', () => {
    const ranged = withBounds(NO_FILTERS, 0, { low: 2, high: 3 });
    expect(passing(candidates, columns, ranged)).toEqual([1, 2]);
    const open = withBounds(NO_FILTERS, 0, { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY });
    expect(passing(candidates, columns, open)).toEqual([0, 1, 2]);
  });
  test('options of a choice, and several columns at once', () => {
    const out = withBounds(NO_FILTERS, 1, { options: new Set([1]) });
    expect(passing(candidates, columns, out)).toEqual([1, 3]);
    expect(passing(candidates, columns, withBounds(out, 0, { low: 0, high: 9 }))).toEqual([1]);
    expect(passing(candidates, columns, withBounds(out, 1, null))).toEqual([0, 1, 2, 3]);
  });
});

describe('the front of two scores', () => {
  const score = fc.integer({ min: 0, max: 6 });
  const sides = fc.constantFrom('more' as const, 'less' as const);

  test('is all that no other beats: as good in one and better in the other, told by comparing each with each', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(score, score, fc.constantFrom(WORKS, FAILS)), { minLength: 1, maxLength: 30 }),
        sides,
        sides,
        (points, xBetter, yBetter) => {
          const x = columnOf(
            points.map(([value]) => value),
            { better: xBetter },
          );
          const y = columnOf(
            points.map(([, value]) => value),
            { better: yBetter },
          );
          const gain = (column: Column, i: number) => (column.better === 'more' ? 1 : -1) * column.values[i];
          const all = points.map((_, i) => i);
          const working = all.filter((i) => points[i][2] === WORKS);
          const among = working.length > 0 ? working : all;
          const beats = (a: number, b: number) =>
            gain(x, a) >= gain(x, b) &&
            gain(y, a) >= gain(y, b) &&
            (gain(x, a) > gain(x, b) || gain(y, a) > gain(y, b));
          const expected = among.filter((b) => !among.some((a) => beats(a, b)));
          const candidates = candidatesOf(
            points.map(([, , outcome]) => outcome),
            [],
          );
          const front = frontOf({ candidates, shown: new Signal<readonly number[]>(all) }, x, y);
          expect([...front].sort((a, b) => a - b)).toEqual(expected);
          expect(front.map((i) => x.values[i])).toEqual(
            [...front.map((i) => x.values[i])].sort((a, b) => a - b),
          );
        },
      ),
    );
  });

  test('leaves out what was not computed, and is empty where a score has no better side', () => {
    const candidates = candidatesOf([WORKS, WORKS], []);
    const shown = new Signal<readonly number[]>([0, 1]);
    const y = columnOf([1, 5]);
    expect(frontOf({ candidates, shown }, columnOf([1, Number.NaN]), y)).toEqual([0]);
    expect(frontOf({ candidates, shown }, columnOf([1, 2], { better: null }), y)).toEqual([]);
  });
});

describe('an upright axis', () => {
  const HEIGHT = 220;

  test('a stretch stands for the values that lie on it, both ways', () => {
    const column = columnOf([10, 20, 30]);
    const upright = new Upright(column, HEIGHT);
    const bounds = upright.between(upright.at(0) - 20, upright.at(2) + 20);
    expect(upright.spans(bounds)).toEqual([[upright.at(2) + 20, upright.at(0) - 20]]);
    expect(bounds).toEqual({ low: 12, high: 28 });
  });
  test('pulled over both ends it takes in least and most exactly', () => {
    const upright = new Upright(columnOf([0.1, 0.7]), HEIGHT);
    expect(upright.between(-50, HEIGHT + 50)).toEqual({ low: 0.1, high: 0.7 });
  });
  test('of a choice it takes in the options whose marks it covers', () => {
    const upright = new Upright(columnOf([0, 1, 2], { options: ['a', 'b', 'c'] }), HEIGHT);
    const [, b, c] = upright.optionMarks;
    expect(upright.between(b.at + 5, c.at - 5)).toEqual({ options: new Set([1, 2]) });
  });
  test('an option that no dummy beside it reaches is not marked off the axis', () => {
    const upright = new Upright(columnOf([1, 2], { options: ['a', 'b', 'c'] }), HEIGHT);
    expect(upright.optionMarks.map(({ text }) => text)).toEqual(['b', 'c']);
  });
});

test('of a limit that asks for enough, more is better; of one that asks for no more, less', () => {
  const figure = compileFigure(
    parseFigure(
      'page: A5\nparts:\n  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [30, 30], widths: [40, 40] }',
      'tent.yaml',
    ),
  );
  const limits = ['pile', 'glue area'].map((name) => ({ name, unit: 'mm' }));
  const columns = columnsOf(figure, { better: [], limits }, candidatesOf([WORKS], [1, 1]));
  expect(columns.map(({ name, better }) => `${name}: ${better}`)).toEqual([
    'desirability: more',
    'pile: less',
    'glue area: more',
  ]);
});

test('ticks are evenly spaced, round, inside the range, and about as many as asked', () => {
  expect(ticks(0, 10, 5)).toEqual([0, 2, 4, 6, 8, 10]);
  expect(ticks(-0.25, 0.35, 6)).toEqual([-0.2, -0.1, 0, 0.1, 0.2, 0.3]);
  fc.assert(
    fc.property(
      fc.double({ min: -1e5, max: 1e5, noNaN: true }),
      fc.double({ min: 1e-3, max: 1e5, noNaN: true }),
      fc.integer({ min: 2, max: 12 }),
      (least, size, count) => {
        const found = ticks(least, least + size, count);
        expect(found.length).toBeLessThanOrEqual(count + 1);
        expect(found.length).toBeGreaterThanOrEqual(Math.floor(count / 2.5));
        for (const tick of found) {
          expect(tick).toBeGreaterThanOrEqual(least - 1e-6 * size);
          expect(tick).toBeLessThanOrEqual(least + size * (1 + 1e-6));
        }
      },
    ),
  );
});

test('thinning keeps the first, the order and the number', () => {
  expect(thin([1, 2, 3], 3)).toEqual([1, 2, 3]);
  const list = Array.from({ length: 1000 }, (_, i) => i);
  const some = thin(list, 30);
  expect(some).toHaveLength(30);
  expect(some[0]).toBe(0);
  expect(new Set(some).size).toBe(30);
});

test('a cell shows a dash for what was not computed, and options by name', () => {
  expect(cell(columnOf([1]), Number.NaN)).toBe('–');
  expect(cell(columnOf([1]), -1.234)).toBe('−1.23');
  expect(cell(columnOf([1], { unit: 'degrees' }), 1.26)).toBe('1.3');
  expect(cell(columnOf([0, 1], { options: ['in', 'out'] }), 1)).toBe('out');
});
