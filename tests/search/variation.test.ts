import { mean, standardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { stream } from '../../src/search/random.js';
import { Space } from '../../src/search/variables.js';
import { crossed, differed, jittered, mutate } from '../../src/search/variation.js';
import { real } from '../support/search-problems.js';

const line = new Space([real('x', 0, 1)]);
const mixed = new Space([real('x', 0, 1), real('s', 0, 10, 1), { name: 'c', kind: 'choice', options: 4 }]);
const at = (...values: number[]) => mixed.toUnit(values);
const many = (count: number, make: () => Float64Array) => Array.from({ length: count }, make);

describe('crossover', () => {
  it('spreads children as simulated binary crossover does', () => {
    // Deb and Agrawal 1995: far from bounds the spread factor is below 1 as often as above, and the mean of both parents
    // is kept. At nearness n, P(spread <= b) = b^(n+1) / 2 for b <= 1. Only moved children are looked at.
    const random = stream(1, 'crossover');
    const [a, b] = [Float64Array.of(0.495), Float64Array.of(0.505)];
    const moved = many(20000, () => crossed(random, line, a, b, 4)).filter((c) => c[0] !== a[0]);
    expect(moved.length / 20000).toBeCloseTo(0.5, 1);
    const spread = moved.map((c) => Math.abs(c[0] - 0.5) / 0.005);
    expect(mean(moved.map((c) => c[0]))).toBeCloseTo(0.5, 3);
    for (const factor of [0.6, 0.8, 0.95]) {
      const share = spread.filter((s) => s <= factor).length / spread.length;
      expect(Math.abs(share - factor ** 5 / 2)).toBeLessThan(0.02);
    }
    // P(spread > b) = b^-(n+1) / 2 for b >= 1.
    for (const factor of [1.05, 1.3, 2]) {
      const share = spread.filter((s) => s > factor).length / spread.length;
      expect(Math.abs(share - factor ** -5 / 2)).toBeLessThan(0.02);
    }
  });

  it('stays inside the range, also near its ends', () => {
    const random = stream(2, 'crossover');
    for (const [a, b] of [
      [0, 0.3],
      [0.9, 1],
      [0, 1],
    ]) {
      for (const child of many(500, () => crossed(random, line, Float64Array.of(a), Float64Array.of(b), 2))) {
        expect(child[0]).toBeGreaterThanOrEqual(-1e-12);
        expect(child[0]).toBeLessThanOrEqual(1 + 1e-12);
      }
    }
  });

  it('takes a choice from one parent or the other, and leaves alone what both share', () => {
    const random = stream(3, 'crossover');
    const children = many(200, () => crossed(random, mixed, at(0.5, 3, 1), at(0.5, 9, 3), 15));
    expect(new Set(children.map((c) => mixed.toValues(c)[2]))).toEqual(new Set([1, 3]));
    expect(new Set(children.map((c) => c[0]))).toEqual(new Set([0.5]));
  });
});

describe('difference', () => {
  it('moves the base along the difference of two others, in at least one dim', () => {
    const random = stream(4, 'difference');
    const plane = new Space([real('x', 0, 1), real('y', 0, 1)]);
    const [base, from, to] = [
      Float64Array.of(0.5, 0.5),
      Float64Array.of(0.1, 0.6),
      Float64Array.of(0.3, 0.2),
    ];
    const seen = new Set(
      many(300, () => differed(random, plane, base, from, to, 0.5, 0.5)).map((c) =>
        Array.from(c, (x) => x.toFixed(3)).join(),
      ),
    );
    expect(seen).toEqual(new Set(['0.600,0.500', '0.500,0.300', '0.600,0.300']));
  });

  it('takes a choice from one of the two', () => {
    const random = stream(5, 'difference');
    const children = many(200, () => differed(random, mixed, at(0, 0, 0), at(0, 0, 1), at(0, 0, 2), 0.5, 1));
    expect(new Set(children.map((c) => mixed.toValues(c)[2]))).toEqual(new Set([1, 2]));
  });
});

it('jitter moves half of the dims, by about a third of the difference of two others, and no choice', () => {
  const random = stream(6, 'jitter');
  const children = many(8000, () => jittered(random, mixed, at(0.5, 5, 1), at(0.4, 5, 2), at(0.6, 5, 3)));
  const moves = children.map((c) => c[0] - 0.5).filter((move) => move !== 0);
  expect(moves.length / 8000).toBeCloseTo(0.5, 1);
  expect(mean(moves)).toBeCloseTo(0, 2);
  expect(standardDeviation(moves)).toBeCloseTo(0.35 * 0.2, 2);
  for (const child of children) expect(Array.from(mixed.toValues(child)).slice(1)).toEqual([5, 1]);
});

describe('mutation', () => {
  const mutated = (odds: number, nearness: number, ...values: number[]) => {
    const random = stream(7, 'mutation');
    return many(6000, () => {
      const unit = at(...values);
      mutate(random, mixed, unit, odds, nearness);
      return mixed.snap(unit);
    });
  };

  it('is as wide as its index says, and as often as its odds', () => {
    // In the middle of the range, |step| <= d has odds 1 - (1 - d)^(n+1) far from the bounds (Deb and Goyal 1996); the
    // bounded form cuts it at 1/2, which at n = 20 no step reaches.
    const steps = mutated(0.25, 20, 0.5, 5, 1).map((c) => Math.abs(c[0] - 0.5));
    const moved = steps.filter((s) => s > 0);
    expect(moved.length / 6000).toBeCloseTo(0.25, 1);
    for (const d of [0.02, 0.05, 0.1]) {
      const share = moved.filter((s) => s <= d).length / moved.length;
      expect(Math.abs(share - (1 - (1 - d) ** 21))).toBeLessThan(0.04);
    }
  });

  it('always leaves the cell of a stepped dim and the option of a choice, and reaches all options', () => {
    const values = mutated(1, 20, 0.5, 5, 1).map((c) => mixed.toValues(c));
    for (const [, step, option] of values) {
      expect(step).not.toBe(5);
      expect(option).not.toBe(1);
    }
    expect(new Set(values.map(([, , option]) => option))).toEqual(new Set([0, 2, 3]));
    // A cell is an eleventh of the range: most steps at this index are shorter, and go next door.
    expect(values.filter(([, step]) => step === 4 || step === 6).length / values.length).toBeGreaterThan(
      0.75,
    );
  });

  it('copes with the ends of a range and with dims of one value', () => {
    const single = new Space([
      real('s', 2, 2, 1),
      { name: 'c', kind: 'choice', options: 1 },
      real('x', 0, 1),
    ]);
    const random = stream(8, 'mutation');
    for (const x of [0, 1]) {
      for (let i = 0; i < 200; i++) {
        const unit = single.toUnit([2, 0, x]);
        mutate(random, single, unit, 1, 20);
        const [s, c, value] = single.toValues(single.snap(unit));
        expect([s, c]).toEqual([2, 0]);
        expect(value).toBeGreaterThanOrEqual(0);
        expect(value).toBeLessThanOrEqual(1);
      }
    }
  });

  it('leads a child that a difference has thrown far outside back to a point', () => {
    // 0.9 of the whole range beyond its end, as one differential step may go: there the bounded form has roots of less than 0.
    const random = stream(9, 'mutation');
    for (const x of [-0.9, 1.9])
      for (let i = 0; i < 400; i++) {
        const unit = Float64Array.of(x, 0.5, 0.125);
        mutate(random, mixed, unit, 1, 20);
        expect(mixed.snap(unit)[0]).toSatisfy((u: number) => u >= 0 && u <= 1);
      }
  });
});
