import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { safeRanges, safeRangesOfEach } from '../../../src/insight/local/safe-range.js';
import type { Variable } from '../../../src/search/evaluator.js';
import { verdictsOf } from '../sensitivity/functions.js';

const real = (min: number, max: number, step?: number): Variable => ({
  name: 'x',
  kind: 'real',
  min,
  max,
  step,
});
const walk = { coarse: 2, tolerance: 0.05 };

describe('safeRanges', () => {
  test('ends within the tolerance on the safe side, each with what fails beyond', async () => {
    const numbers = fc.double({ min: 0.01, max: 0.99, noNaN: true });
    await fc.assert(
      fc.asyncProperty(numbers, numbers, numbers, async (a, b, c) => {
        const [low, at, high] = [a, b, c].sort((x, y) => x - y).map((share) => 20 + 40 * share);
        fc.pre(at - low > 1e-6 && high - at > 1e-6);
        const verdicts = verdictsOf(([x]) => (x < low ? 'too low' : x > high ? 'too high' : null));
        const [{ range }] = await safeRanges(verdicts, [real(20, 60)], Float64Array.of(at), [walk]);
        if (range === null) throw new Error('no range');
        expect(range.low.value).toBeGreaterThanOrEqual(low);
        expect(range.low.value - low).toBeLessThanOrEqual(0.0501);
        expect(range.low.failure).toBe('too low');
        expect(range.high.value).toBeLessThanOrEqual(high);
        expect(high - range.high.value).toBeLessThanOrEqual(0.0501);
        expect(range.high.failure).toBe('too high');
      }),
      { seed: 1 },
    );
  });

  test('where the range itself ends first there is no failure', async () => {
    const [{ range }] = await safeRanges(
      verdictsOf(() => null),
      [real(1.1, 7.3)],
      Float64Array.of(2.2),
      [walk],
    );
    expect(range).toEqual({ low: { value: 1.1, failure: null }, high: { value: 7.3, failure: null } });
  });

  test('a value on its bound has nowhere to go that way', async () => {
    const [{ range }] = await safeRanges(
      verdictsOf(() => null),
      [real(0, 5)],
      Float64Array.of(5),
      [walk],
    );
    expect(range?.high).toEqual({ value: 5, failure: null });
    expect(range?.low).toEqual({ value: 0, failure: null });
  });

  test('the bound is tried, though no coarse step falls on it', async () => {
    const verdicts = verdictsOf(([x]) => (x > 9.9 ? 'catches' : null));
    const [{ range }] = await safeRanges(verdicts, [real(0, 10)], Float64Array.of(5), [
      { coarse: 3, tolerance: 0.05 },
    ]);
    expect(range?.high.failure).toBe('catches');
    expect(range?.high.value).toBeGreaterThan(9.85);
  });

  test('a failing island wider than the coarse step is found, a narrower one may be missed', async () => {
    const island = (from: number, to: number) => verdictsOf(([x]) => (x > from && x < to ? 'binds' : null));
    const at = Float64Array.of(1);
    const [wide] = await safeRanges(island(4.9, 7), [real(0, 10)], at, [walk]);
    expect(wide.range?.high.failure).toBe('binds');
    expect(wide.range?.high.value).toBeLessThanOrEqual(4.9);
    const [narrow] = await safeRanges(island(5.1, 6.9), [real(0, 10)], at, [walk]);
    expect(narrow.range?.high).toEqual({ value: 10, failure: null });
  });

  test('the first failure beyond is told, not that of farther out', async () => {
    const verdicts = verdictsOf(([x]) => (x > 4.2 ? (x > 4.5 ? 'locks' : 'presses') : null));
    const [{ range }] = await safeRanges(verdicts, [real(0, 10)], Float64Array.of(3), [walk]);
    expect(range?.high.failure).toBe('presses');
  });

  test('stepped dims end on a step', async () => {
    const verdicts = verdictsOf(([x]) => (x > 7.3 ? 'catches' : null));
    const [{ range }] = await safeRanges(verdicts, [real(1, 9.9, 0.5)], Float64Array.of(3), [walk]);
    expect(range?.high.value).toBeCloseTo(7, 9);
    expect(range?.low).toEqual({ value: 1, failure: null });
    const [{ range: whole }] = await safeRanges(
      verdictsOf(() => null),
      [real(1, 9.9, 0.5)],
      Float64Array.of(3),
      [walk],
    );
    expect(whole?.high.value).toBeCloseTo(9.5, 9);
  });

  test('round-off does not cost a step: 0.3 / 0.1 is less than 3', async () => {
    const [{ range }] = await safeRanges(
      verdictsOf(() => null),
      [real(0, 0.3, 0.1)],
      Float64Array.of(0),
      [walk],
    );
    expect(range?.high.value).toBeCloseTo(0.3, 9);
  });

  test('all dims and both ways in few rounds; the others stay as they are', async () => {
    const variables = Array.from({ length: 10 }, () => real(0, 40));
    const verdicts = verdictsOf((row) => {
      expect(row.filter((x) => x !== 20).length).toBeLessThanOrEqual(1);
      return row.some((x) => x < 7 || x > 33) ? 'catches' : null;
    });
    const ranges = await safeRanges(
      verdicts,
      variables,
      new Float64Array(10).fill(20),
      variables.map(() => walk),
    );
    expect(ranges).toHaveLength(10);
    // The value itself, 7 coarse steps, and 6 halvings of 2 mm to 0.05 mm.
    expect(verdicts.rounds).toBe(1 + 7 + 6);
    expect(verdicts.rows).toBe(1 + 20 * 13);
  });

  test('reasons: a choice, a value outside, a figure that fails as it is', async () => {
    const variables: Variable[] = [{ name: 'fold', kind: 'choice', options: 2 }, real(0, 5)];
    const outside = await safeRanges(
      verdictsOf(() => null),
      variables,
      Float64Array.of(0, 6),
      [walk, walk],
    );
    expect(outside.map((range) => range.reason)).toEqual([
      'a choice has no range',
      'its value lies outside its range',
    ]);
    const failing = await safeRanges(
      verdictsOf(() => 'boat catches'),
      variables,
      Float64Array.of(0, 3),
      [walk, walk],
    );
    expect(failing.map((range) => range.reason)).toEqual([
      'the figure itself fails: boat catches',
      'the figure itself fails: boat catches',
    ]);
    expect(failing[1].range).toBeNull();
  });

  test('a walk without a step is an error, not an endless one', async () => {
    const none = safeRanges(
      verdictsOf(() => null),
      [real(0, 5)],
      Float64Array.of(1),
      [{ coarse: 0, tolerance: 0.05 }],
    );
    await expect(none).rejects.toThrow(RangeError);
  });

  test('several candidates are walked side by side, each as it would be alone', async () => {
    const fails = (x: Float64Array) => (x[0] + x[1] > 12 ? 'too long' : x[0] < 2 ? 'too short' : null);
    const variables = [real(0, 10), real(0, 10)];
    const candidates = [Float64Array.of(4, 4), Float64Array.of(1, 1), Float64Array.of(9, 2)];
    const verdicts = verdictsOf(fails);
    const each = await safeRangesOfEach(verdicts, variables, candidates, [walk, walk]);
    let [rounds, rows] = [0, 0];
    for (const [i, candidate] of candidates.entries()) {
      const alone = verdictsOf(fails);
      expect(each[i]).toEqual(await safeRanges(alone, variables, candidate, [walk, walk]));
      rounds = Math.max(rounds, alone.rounds);
      rows += alone.rows;
    }
    expect(each[1][0].reason).toBe('the figure itself fails: too short');
    expect([verdicts.rounds, verdicts.rows]).toEqual([rounds, rows]);
  });
});
