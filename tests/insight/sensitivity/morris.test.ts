import { describe, expect, test } from 'vitest';
import { dimsWorthALook, morrisRows, morrisScreening } from '../../../src/insight/sensitivity/morris.js';
import { stream } from '../../../src/search/random.js';
import { batchOf } from './functions.js';

describe('morrisRows', () => {
  const dims = 6;
  const rows = morrisRows(50, dims, stream(1, 'walks'));

  test('a walk steps once in every dim by 2/3, within the cube', () => {
    expect(rows).toHaveLength(50 * (dims + 1));
    for (let walk = 0; walk < 50; walk++) {
      const stepped = new Set<number>();
      for (let k = 1; k <= dims; k++) {
        const [before, after] = [rows[walk * (dims + 1) + k - 1], rows[walk * (dims + 1) + k]];
        const moved = Array.from(after.keys()).filter((dim) => after[dim] !== before[dim]);
        expect(moved).toHaveLength(1);
        expect(Math.abs(after[moved[0]] - before[moved[0]])).toBeCloseTo(2 / 3, 12);
        stepped.add(moved[0]);
      }
      expect(stepped.size).toBe(dims);
    }
    for (const value of rows.flatMap((row) => [...row])) {
      expect([0, 1, 2, 3].some((level) => Math.abs(value - level / 3) < 1e-12)).toBe(true);
    }
  });

  test('each level is walked on about as often', () => {
    const top = rows.filter((row) => row[0] === 1).length / rows.length;
    expect(Math.abs(top - 0.25)).toBeLessThan(0.08);
  });
});

describe('morrisScreening', () => {
  test('a plane has effects equal to its slopes, without spread', async () => {
    const f = (x: Float64Array) => [3 * x[0] - 2 * x[1], 5 * x[2]];
    const results = await morrisScreening(batchOf(f), 3, 8, stream(2, 'walks'));
    const slopes = [3, -2, 0];
    slopes.forEach((slope, dim) => {
      const effect = results[dim][0].effect;
      expect(effect?.mean).toBeCloseTo(slope, 10);
      expect(effect?.size).toBeCloseTo(Math.abs(slope), 10);
      expect(effect?.spread).toBeCloseTo(0, 10);
    });
    expect(results[2][1].effect?.size).toBeCloseTo(5, 10);
    expect(dimsWorthALook(results, 0.1)).toEqual([0, 1, 2]);
    expect(
      dimsWorthALook(
        results.map(([first]) => [first]),
        0.1,
      ),
    ).toEqual([0, 1]);
  });

  test('rises and falls that cancel leave a size and a spread', async () => {
    // (x − ½)² falls by 2/9 from 0 to 2/3, and rises by 2/9 from 1/3 to 1.
    const results = await morrisScreening(
      batchOf((x) => [(x[0] - 0.5) ** 2]),
      1,
      400,
      stream(3, 'walks'),
    );
    const effect = results[0][0].effect;
    expect(Math.abs(effect?.mean ?? 1)).toBeLessThan(0.05);
    expect(effect?.size).toBeCloseTo(2 / 9 / (2 / 3), 10);
    expect(effect?.spread).toBeGreaterThan(0.3);
  });

  test('a choice of any number of options changes at every step', async () => {
    for (const options of [2, 3, 4, 5]) {
      const f = (x: Float64Array) => [Math.min(options - 1, Math.floor(x[0] * options))];
      const results = await morrisScreening(batchOf(f), 1, 50, stream(4, 'walks'));
      expect(results[0][0].effect?.size).toBeGreaterThan(1);
    }
  });

  test('a dim of little effect is kept while its standard error leaves room for more', () => {
    const of = (size: number, sizeError: number) => [
      { effect: { mean: size, size, sizeError, spread: 0 }, reason: null, droppedShare: 0 },
    ];
    expect(dimsWorthALook([of(10, 0), of(0.6, 0.1), of(0.6, 0.3), of(0, 0)], 0.1)).toEqual([0, 2]);
  });

  test('effects that could not be computed are dropped and told, too few are a reason', async () => {
    const half = await morrisScreening(
      batchOf((x) => [x[1] > 0.5 ? Number.NaN : x[0]]),
      2,
      40,
      stream(5, 'walks'),
    );
    expect(half[0][0].effect?.size).toBeCloseTo(1, 10);
    expect(half[0][0].droppedShare).toBeGreaterThan(0.2);
    expect(half[1][0]).toMatchObject({ effect: null, reason: 'only 0 of 40 effects could be computed' });
    // Not known is not unimportant.
    expect(dimsWorthALook(half, 0.1)).toEqual([0, 1]);
  });
});
