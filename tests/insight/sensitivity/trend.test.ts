import { expect, test } from 'vitest';
import { isTrend, rankCorrelation } from '../../../src/insight/sensitivity/rank-correlation.js';
import { stream } from '../../../src/search/random.js';

/** The strongest rank correlation of six dims with whether a dummy works, in a study of 60. */
const strongest = (seed: number, works: (dims: readonly number[]) => boolean) => {
  const random = stream(seed, 'trend');
  const dummies = Array.from({ length: 60 }, () => Array.from({ length: 6 }, () => random.next()));
  const score = dummies.map((dims) => (works(dims) ? 1 : 0));
  return Math.max(
    ...dummies[0].map((_, d) =>
      Math.abs(
        rankCorrelation(
          dummies.map((dims) => dims[d]),
          score,
        ).value ?? 0,
      ),
    ),
  );
};

test('a trend is told where a dim has one, and where none has in about one of a hundred studies', () => {
  let [told, invented] = [0, 0];
  for (let seed = 0; seed < 1000; seed++) {
    const coin = stream(seed, 'coin');
    if (
      isTrend(
        strongest(seed, () => coin.next() < 0.3),
        60,
        6,
      )
    )
      invented++;
    if (
      seed < 50 &&
      isTrend(
        strongest(seed, ([first]) => first > 0.6),
        60,
        6,
      )
    )
      told++;
  }
  expect(told).toBe(50);
  expect(invented).toBeGreaterThan(0);
  expect(invented).toBeLessThan(25);
});
