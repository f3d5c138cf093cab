/**
 * The Sobol sequence against: S. Joe, F. Y. Kuo, SIAM Journal on Scientific Computing 30 (2008) 2635-2654, whose generator
 * prints the first points in this order; and SciPy 1.17, `scipy.stats.qmc.Sobol(d=256, scramble=False, bits=32)`, run apart
 * from this project, whose values stand below. Stratification: I. M. Sobol, 1967; H. Niederreiter, "Random Number
 * Generation and Quasi-Monte Carlo Methods", 1992, chapter 4.
 */
import { describe, expect, it } from 'vitest';
import { stream } from '../../src/search/random.js';
import { Sobol } from '../../src/search/sobol.js';

const points = (sobol: Sobol, from: number, count: number) =>
  Array.from({ length: count }, (_, i) => sobol.point(from + i));

describe('published points', () => {
  it('the first nine, in three dimensions', () => {
    expect(points(new Sobol(3), 0, 9).map((p) => Array.from(p))).toEqual([
      [0, 0, 0],
      [0.5, 0.5, 0.5],
      [0.75, 0.25, 0.25],
      [0.25, 0.75, 0.75],
      [0.375, 0.375, 0.625],
      [0.875, 0.875, 0.125],
      [0.625, 0.125, 0.875],
      [0.125, 0.625, 0.375],
      [0.1875, 0.3125, 0.9375],
    ]);
  });

  it('far out, in high dimensions', () => {
    const sobol = new Sobol(256);
    const at = (index: number) => [0, 1, 2, 9, 31, 63, 127, 200, 255].map((d) => sobol.point(index)[d]);
    expect(at(100)).toEqual([
      0.4140625, 0.2578125, 0.7734375, 0.6953125, 0.4140625, 0.6484375, 0.4609375, 0.8515625, 0.5703125,
    ]);
    expect(at(777)).toEqual([
      0.6923828125, 0.9365234375, 0.1630859375, 0.3232421875, 0.8994140625, 0.4267578125, 0.1181640625,
      0.9912109375, 0.6357421875,
    ]);
  });

  it('all of 1,024 points in 256 dimensions, as one sum', () => {
    // numpy: (points * np.arange(1, 257)).sum(). Every term is a multiple of 2^-10, so the sum is exact.
    const sobol = new Sobol(256);
    const total = points(sobol, 0, 1024).reduce(
      (sum, p) => sum + p.reduce((s, x, d) => s + x * (d + 1), 0),
      0,
    );
    expect(total).toBe(16826304);
  });
});

/** Whether some points fall into each dyadic interval of their number's length just once. */
function eachIntervalOnce(values: number[]): boolean {
  return new Set(values.map((x) => Math.floor(x * values.length))).size === values.length;
}

describe.each([
  ['as published', undefined],
  ['scrambled', 12],
  ['scrambled otherwise', 2026],
])('stratification, %s', (_, seed) => {
  const dims = 64;
  const sobol = new Sobol(dims, seed);

  it('each block of 2^k points hits each dyadic interval once, in every dimension', () => {
    for (const [from, count] of [
      [0, 2],
      [2, 2],
      [0, 16],
      [48, 16],
      [256, 256],
      [1024, 1024],
    ]) {
      const block = points(sobol, from, count);
      for (let d = 0; d < dims; d++) expect(eachIntervalOnce(block.map((p) => p[d]))).toBe(true);
    }
  });

  it('the first two dimensions are a (0, m, 2)-net: each dyadic box of area 1/256 holds one of 256 points', () => {
    for (const from of [0, 256, 4096]) {
      const block = points(sobol, from, 256);
      for (let k = 0; k <= 8; k++) {
        const boxes = block.map((p) => Math.floor(p[0] * 2 ** k) * 256 + Math.floor(p[1] * 2 ** (8 - k)));
        expect(new Set(boxes).size).toBe(256);
      }
    }
  });
});

/** Squared L2 star discrepancy, by Warnock's formula (T. T. Warnock 1972). */
function discrepancy(block: ArrayLike<number>[]): number {
  const n = block.length;
  const s = block[0].length;
  let single = 0;
  let pairs = 0;
  for (const p of block) {
    let product = 1;
    for (let d = 0; d < s; d++) product *= (1 - p[d] * p[d]) / 2;
    single += product;
    for (const q of block) {
      let area = 1;
      for (let d = 0; d < s; d++) area *= 1 - Math.max(p[d], q[d]);
      pairs += area;
    }
  }
  return 3 ** -s - (2 * single) / n + pairs / n ** 2;
}

describe('discrepancy', () => {
  it("is SciPy's for 256 plain points in two dimensions", () => {
    // scipy.stats.qmc.discrepancy(points, method='L2-star')
    expect(Math.sqrt(discrepancy(points(new Sobol(2), 0, 256)))).toBeCloseTo(0.0033074703678268075, 12);
  });

  it('is far below that of random points, for every seed', () => {
    for (const dims of [2, 6]) {
      const random = stream(1, 'discrepancy');
      const blind = Array.from({ length: 256 }, () => Array.from({ length: dims }, () => random.next()));
      // The expected squared value of random points is (2^-s - 3^-s) / n.
      const expected = (2 ** -dims - 3 ** -dims) / 256;
      expect(discrepancy(blind)).toBeGreaterThan(expected / 4);
      for (const seed of [1, 2, 3, 4, 5]) {
        expect(discrepancy(points(new Sobol(dims, seed), 0, 256))).toBeLessThan(
          expected / (dims === 2 ? 30 : 3),
        );
      }
    }
  });
});

describe('scrambling', () => {
  it('gives the same points for a seed, others for another', () => {
    const of = (seed: number) => Array.from(new Sobol(5, seed).point(77));
    expect(of(1)).toEqual(of(1));
    expect(of(1)).not.toEqual(of(2));
  });

  it('is uniform over seeds: the first point has no place of its own', () => {
    const first = Array.from({ length: 2000 }, (_, seed) => new Sobol(3, seed).point(0));
    for (let d = 0; d < 3; d++) {
      const cells = new Float64Array(16);
      for (const p of first) cells[Math.floor(p[d] * 16)]++;
      // Chi-squared of 15 degrees: 99.9 % lie below 37.7.
      expect(cells.reduce((sum, count) => sum + (count - 125) ** 2 / 125, 0)).toBeLessThan(37.7);
    }
  });

  it('tears the dimensions apart: neighbours that share a polynomial degree are not correlated', () => {
    const block = points(new Sobol(64, 5), 0, 512);
    for (let d = 1; d < 64; d++) {
      const r = block.reduce((sum, p) => sum + (p[d] - 0.5) * (p[d - 1] - 0.5), 0) / 512 / (1 / 12);
      expect(Math.abs(r)).toBeLessThan(0.25);
    }
  });
});

it('refuses dimensions that the table does not have', () => {
  expect(() => new Sobol(0)).toThrow(RangeError);
  expect(() => new Sobol(257)).toThrow('1 to 256');
});
