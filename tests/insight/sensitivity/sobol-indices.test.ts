import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { saltelliRows } from '../../../src/insight/sensitivity/saltelli.js';
import {
  indicesOfAll,
  type SobolIndex,
  type SobolResult,
  sobolSensitivity,
} from '../../../src/insight/sensitivity/sobol-indices.js';
import { Random, stream } from '../../../src/search/random.js';
import { Sobol } from '../../../src/search/sobol.js';
import { Space } from '../../../src/search/variables.js';
import { batchOf } from './functions.js';

/** Independent random points, for which the bootstrap's assumptions hold. */
function plainPoints(random: Random) {
  return (_: number, out: Float64Array) => {
    for (let i = 0; i < out.length; i++) out[i] = random.next();
  };
}

function run(f: (row: Float64Array) => number[], dims: number, count: number, seed = 1) {
  const sobol = new Sobol(2 * dims, seed);
  return sobolSensitivity(batchOf(f), dims, {
    count,
    point: (index, out) => sobol.point(index, out),
    random: stream(seed, 'bootstrap'),
  });
}

function known(result: SobolResult): SobolIndex {
  if (result.index === null) throw new Error(`no index: ${result.reason}`);
  return result.index;
}

describe('saltelliRows', () => {
  test('A and AB(i) differ in dim i alone, B and AB(i) agree there', () => {
    const dims = 4;
    const rows = saltelliRows(10, dims, plainPoints(stream(1, 'points')));
    expect(rows).toHaveLength(10 * (dims + 2));
    for (let base = 0; base < 10; base++) {
      const [a, b, ...mixed] = rows.slice(base * (dims + 2), (base + 1) * (dims + 2));
      mixed.forEach((row, i) => {
        row.forEach((value, dim) => {
          expect(value).toBe(dim === i ? b[dim] : a[dim]);
        });
      });
    }
  });
});

test('dims that are not asked about vary all the same, and the others keep their indices', async () => {
  // x₀ + x₁ + x₂, of which only x₀ and x₂ are asked about: each explains a third, since x₁ varies too.
  const sobol = new Sobol(6, 2);
  const rows = saltelliRows(512, 3, (index, out) => sobol.point(index, out), [[0], [2]]);
  expect(rows).toHaveLength(512 * 4);
  const answers = rows.map((x) => Float64Array.of(x[0] + x[1] + x[2]));
  const results = indicesOfAll(answers, 2, stream(2, 'bootstrap'));
  expect(results).toHaveLength(2);
  for (const [result] of results) {
    expect(Math.abs(known(result).first - 1 / 3)).toBeLessThan(0.03);
    expect(Math.abs(known(result).total - 1 / 3)).toBeLessThan(0.03);
  }
});

describe('sobolSensitivity', () => {
  test('a sum of dims: each explains its own part, c² / Σ c², alone and in total', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 2, maxLength: 5 }),
        fc.double({ min: -1000, max: 1000, noNaN: true }),
        async (slopes, constant) => {
          const whole = slopes.reduce((sum, c) => sum + c * c, 0);
          fc.pre(whole > 0.01);
          const results = await run(
            (x) => [x.reduce((sum, v, i) => sum + slopes[i] * v, constant)],
            slopes.length,
            512,
          );
          slopes.forEach((c, dim) => {
            const index = known(results[dim][0]);
            expect(Math.abs(index.first - (c * c) / whole)).toBeLessThan(0.05);
            expect(Math.abs(index.total - (c * c) / whole)).toBeLessThan(0.05);
          });
        },
      ),
      { numRuns: 15, seed: 1 },
    );
  });

  test('a dim that cannot matter comes out as not mattering: 0, and its intervals hold 0', async () => {
    const results = await run((x) => [Math.sin(5 * x[0]) * x[1]], 3, 256);
    expect(known(results[2][0])).toEqual({
      first: 0,
      firstLow: 0,
      firstHigh: 0,
      total: 0,
      totalLow: 0,
      totalHigh: 0,
    });
  });

  test('many scores at once; a constant one has a reason and no number', async () => {
    const results = await run((x) => [x[0], 7, x[1]], 2, 128);
    expect(known(results[0][0]).total).toBeCloseTo(1, 1);
    expect(results[0][1]).toEqual({ index: null, reason: 'does not vary', droppedShare: 0 });
    expect(known(results[0][2]).total).toBe(0);
  });

  test("round-off about a constant is no variance: the kernel's 1e-6 mm near flat", async () => {
    const results = await run((x) => [5 + 1e-6 * x[0]], 1, 128);
    expect(results[0][0].reason).toBe('does not vary');
  });

  test('a choice takes part, and "works at all" is an output of 0 and 1', async () => {
    const space = new Space([
      { name: 'fold', kind: 'choice', options: 2 },
      { name: 'height', kind: 'real', min: 20, max: 60 },
    ]);
    // Works for option 1 at any height, for option 0 below 30 mm: p = 1/2 + 1/2 · 1/4.
    // S of the choice: the share given it is 1/4 or 1, so its variance is (3/8)² = 9/64 of p(1 − p) = 15/64.
    const f = (unit: Float64Array) => {
      const [fold, height] = space.toValues(unit);
      return [fold === 1 || height < 30 ? 1 : 0];
    };
    const results = await run(f, 2, 2048);
    const fold = known(results[0][0]);
    expect(Math.abs(fold.first - 9 / 15)).toBeLessThan(0.02);
    // Its total: it decides above 30 mm, 3/4 of the heights, and there its variance is 1/4.
    expect(Math.abs(fold.total - 3 / 16 / (15 / 64))).toBeLessThan(0.02);
  });

  test('runs that could not be computed are dropped, and their share is told', async () => {
    // Not computed for x₀ > 0.9. Base points kept for dim 1: A and B below 0.9, AB(1) has A's x₀: 0.81.
    const results = await run((x) => [x[0] > 0.9 ? Number.NaN : x[0] + x[1]], 2, 1024);
    expect(Math.abs(results[1][0].droppedShare - 0.19)).toBeLessThan(0.01);
    expect(results[1][0].reason).toBeNull();
    // x₀ even over [0, 0.9], x₁ over [0, 1]: variances 0.81/12 and 1/12.
    expect(Math.abs(known(results[1][0]).total - 1 / 1.81)).toBeLessThan(0.02);
  });

  test('too few runs left is a reason', async () => {
    const results = await run((x) => [x[0] > 0.1 ? Number.NaN : x[0]], 1, 64);
    expect(results[0][0].index).toBeNull();
    expect(results[0][0].reason).toMatch(/^only \d of 64 base points could be computed$/);
    expect(results[0][0].droppedShare).toBeGreaterThan(0.9);
  });

  test('an output that differs in a run or two is a reason, not a wild number', async () => {
    let calls = 0;
    const results = await run(() => [calls++ === 100 ? 1 : 0], 1, 256);
    expect(results[0][0]).toMatchObject({ index: null, reason: 'varies in too few runs to be measured' });
  });

  test('intervals shrink as 1/√N, and hold the true value about as often as they say', async () => {
    const f = (x: Float64Array) => [x[0] + 2 * x[1] * x[2]];
    // V₁ = 1/12; E(f | x₁) = x₁ + ½; V₂ = V₃ = 1/12; V₂₃ = 4/144. Whole 3/12 + 4/144 = 40/144.
    const truth = 12 / 40;
    const widths: number[] = [];
    for (const count of [128, 2048]) {
      let width = 0;
      let held = 0;
      const repeats = 20;
      for (let seed = 0; seed < repeats; seed++) {
        const results = await sobolSensitivity(batchOf(f), 3, {
          count,
          point: plainPoints(stream(seed, `points ${count}`)),
          random: stream(seed, 'bootstrap'),
          resamples: 200,
        });
        const { firstLow, firstHigh } = known(results[0][0]);
        width += (firstHigh - firstLow) / repeats;
        if (firstLow <= truth && truth <= firstHigh) held++;
      }
      widths.push(width);
      expect(held).toBeGreaterThanOrEqual(16);
    }
    // 16 times the runs: a quarter of the width.
    expect(widths[0] / widths[1]).toBeGreaterThan(3);
    expect(widths[0] / widths[1]).toBeLessThan(5.3);
  });

  test('the same seed gives the same numbers', async () => {
    const f = (x: Float64Array) => [x[0] * x[1] + x[2] ** 2];
    expect(await run(f, 3, 128, 4)).toEqual(await run(f, 3, 128, 4));
  });

  test('a batch that answers too few rows is an error', async () => {
    const short = async (rows: Float64Array[]) => rows.slice(1);
    const settings = {
      count: 40,
      point: plainPoints(new Random(1, 2, 3, 4)),
      random: new Random(1, 2, 3, 4),
    };
    await expect(sobolSensitivity(short, 1, settings)).rejects.toThrow('asked for 120 dummies, got 119 back');
  });
});
