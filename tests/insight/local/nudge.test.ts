import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nudges } from '../../../src/insight/local/nudge.js';
import type { Variable } from '../../../src/search/evaluator.js';
import { batchOf } from '../sensitivity/functions.js';

const real = (min: number, max: number, step?: number): Variable => ({
  name: 'x',
  kind: 'real',
  min,
  max,
  step,
});

describe('nudges', () => {
  test('exact for planes, at any place of the range', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(
          fc.tuple(fc.double({ min: -9, max: 9, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true })),
          {
            minLength: 1,
            maxLength: 6,
          },
        ),
        async (dims) => {
          const values = Float64Array.from(dims, ([, at]) => 20 + 40 * at);
          const plane = (x: Float64Array) => [x.reduce((sum, v, i) => sum + dims[i][0] * v, 0)];
          const result = await nudges(
            batchOf(plane),
            dims.map(() => real(20, 60)),
            values,
            0.5,
          );
          dims.forEach(([slope], dim) => {
            expect(result[dim][0].change).toBeCloseTo(slope, 8);
          });
        },
      ),
      { seed: 1 },
    );
  });

  test('central differences are exact for parabolas: 2x; at the ends one side is taken, and said', async () => {
    const square = batchOf(([x]) => [x * x]);
    const at = async (x: number) => (await nudges(square, [real(0, 10)], Float64Array.of(x), 0.5))[0][0];
    // Over half a unit to either side of 3: 5.5 and 6.5, whose mean is 2 · 3.
    expect(await at(3)).toEqual({
      change: 6,
      reason: null,
      from: 'both sides',
      sides: { below: 5.5, above: 6.5 },
    });
    expect(await at(0)).toEqual({
      change: 0.5,
      reason: null,
      from: 'above',
      sides: { below: null, above: 0.5 },
    });
    expect(await at(10)).toEqual({
      change: 19.5,
      reason: null,
      from: 'below',
      sides: { below: 19.5, above: null },
    });
  });

  test('a stepped dim moves by whole steps, at least one', async () => {
    const asked: number[] = [];
    const batch = batchOf(([x]) => {
      asked.push(x);
      return [3 * x];
    });
    await nudges(batch, [real(0, 10, 2)], Float64Array.of(4), 0.5);
    await nudges(batch, [real(0, 10, 0.2)], Float64Array.of(4), 0.5);
    const rounded = asked.map((x) => Math.round(x * 1e6) / 1e6);
    expect(rounded).toEqual([4, 6, 2, 4, 4.6, 3.4]);
  });

  test('round-off at an end does not cost a side: 0.2 + 0.1 is more than 0.3', async () => {
    const [[nudge]] = await nudges(
      batchOf(([x]) => [x]),
      [real(0, 0.3, 0.1)],
      Float64Array.of(0.2),
      0.1,
    );
    expect(nudge.from).toBe('both sides');
  });

  test('choices and ranges without room have a reason', async () => {
    const variables: Variable[] = [{ name: 'fold', kind: 'choice', options: 2 }, real(5, 5.2)];
    const result = await nudges(
      batchOf(() => [1, 2]),
      variables,
      Float64Array.of(1, 5.1),
      0.5,
    );
    expect(result[0].map((nudge) => nudge.reason)).toEqual(['a choice has no +1', 'a choice has no +1']);
    expect(result[1][1]).toEqual({
      change: null,
      reason: 'the range leaves no room for a nudge',
      from: null,
      sides: { below: null, above: null },
    });
  });

  test('where one neighbour could not be computed the other serves; where none could, a reason', async () => {
    const jams = batchOf(([x]) => [x > 5 ? Number.NaN : 2 * x, x < 5 ? Number.NaN : 2 * x, Number.NaN]);
    const [[left, right, none]] = await nudges(jams, [real(0, 10)], Float64Array.of(5), 0.5);
    expect(left).toMatchObject({ change: 2, reason: null, from: 'below' });
    expect(right).toMatchObject({ change: 2, reason: null, from: 'above' });
    expect(none.change).toBeNull();
    expect(none.reason).toBe('the score could not be computed on both ends of a nudge');
  });
});
