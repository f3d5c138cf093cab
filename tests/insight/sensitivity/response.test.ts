import { describe, expect, test } from 'vitest';
import { rankCorrelation } from '../../../src/insight/sensitivity/rank-correlation.js';
import { responseCurve, shareCurve } from '../../../src/insight/sensitivity/response.js';
import { stream } from '../../../src/search/random.js';

const random = stream(1, 'dummies');
const dim = Array.from({ length: 4000 }, () => 20 + 40 * random.next());

describe('responseCurve', () => {
  test('follows the curve; its spread is that of what else varies', () => {
    // Noise even over ±5: 10, 50 and 90 % points at −4, 0 and 4.
    const score = dim.map((x) => 2 * x + 10 * random.next() - 5);
    const { points, reason, droppedShare } = responseCurve(dim, score);
    expect(reason).toBeNull();
    expect(droppedShare).toBe(0);
    expect(points).toHaveLength(20);
    expect(points.reduce((sum, point) => sum + point.count, 0)).toBe(4000);
    for (const { at, low, middle, high } of points) {
      expect(Math.abs(middle - 2 * at)).toBeLessThan(1.5);
      expect(Math.abs(low - (2 * at - 4))).toBeLessThan(1.6);
      expect(Math.abs(high - (2 * at + 4))).toBeLessThan(1.6);
    }
  });

  test('a choice has a point to each option with dummies enough', () => {
    const choice = Array.from({ length: 100 }, (_, i) => (i < 40 ? 0 : i < 90 ? 1 : 2));
    const { points } = responseCurve(
      choice,
      choice.map((option) => 3 * option),
    );
    expect(points.map(({ at, middle, count }) => [at, middle, count])).toEqual([
      [0, 0, 40],
      [1, 3, 50],
    ]);
  });

  test('few dummies, and few of each value, are reasons', () => {
    expect(responseCurve([1, 2, 3], [1, Number.NaN, 3]).reason).toBe('only 2 of 3 dummies could be computed');
    const spread = Array.from({ length: 30 }, (_, i) => i % 3);
    expect(responseCurve(spread, spread).reason).toBe('no value of the dim has 20 dummies');
  });

  test('a short rest joins the bin before', () => {
    const xs = Array.from({ length: 50 }, (_, i) => i);
    expect(responseCurve(xs, xs).points.map((point) => point.count)).toEqual([20, 30]);
  });

  test('scores not computed are left out and told', () => {
    const score = dim.map((x) => (x > 50 ? Number.NaN : x));
    const { points, droppedShare } = responseCurve(dim, score);
    expect(Math.abs(droppedShare - 0.25)).toBeLessThan(0.03);
    expect(Math.max(...points.map((point) => point.at))).toBeLessThan(50);
  });
});

test('shareCurve: the share that works, with its interval', () => {
  const works = dim.map((x) => (random.next() < (x - 20) / 40 ? 1 : 0));
  const { points } = shareCurve(dim, works);
  for (const { at, low, middle, high } of points) {
    expect(middle).toBeGreaterThanOrEqual(low);
    expect(middle).toBeLessThanOrEqual(high);
    expect(low - 0.05).toBeLessThan((at - 20) / 40);
    expect(high + 0.05).toBeGreaterThan((at - 20) / 40);
  }
});

test('shareCurve: fewer and fuller bins than a median has, so that 3 % can be told from 10', () => {
  const few = dim.slice(0, 400);
  const { points } = shareCurve(
    few,
    few.map((_, i) => (i % 33 === 0 ? 1 : 0)),
  );
  expect(points).toHaveLength(6);
  for (const { count, high } of points) {
    expect(count).toBeGreaterThanOrEqual(60);
    expect(high).toBeLessThan(0.2);
  }
});

describe('rankCorrelation', () => {
  test('1 for whatever only rises, however crooked', () => {
    expect(
      rankCorrelation(
        dim,
        dim.map((x) => Math.exp(x / 4)),
      ).value,
    ).toBeCloseTo(1, 12);
  });

  test('does not care about the order of the pairs, ties or not', () => {
    const xs = [1, 1, 2, 2, 2, 3, 4, 4, 5, 6];
    const ys = [3, 1, 4, 1, 5, 9, 2, 6, 5, 3];
    const turned = rankCorrelation(xs.toReversed(), ys.toReversed()).value;
    expect(rankCorrelation(xs, ys).value).toBeCloseTo(turned ?? Number.NaN, 12);
  });

  test('reasons instead of numbers', () => {
    const same = new Array(20).fill(3);
    const rising = same.map((_, i) => i);
    expect(rankCorrelation(rising, same)).toEqual({ value: null, reason: 'does not vary' });
    expect(rankCorrelation(same, rising)).toEqual({ value: null, reason: 'the dim does not vary' });
    expect(rankCorrelation([1, 2], [1, 2]).reason).toBe('only 2 of 2 dummies could be computed');
    const gaps = rising.map((i) => (i < 11 ? Number.NaN : i));
    expect(rankCorrelation(rising, gaps).reason).toBe('only 9 of 20 dummies could be computed');
  });
});
