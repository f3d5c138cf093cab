import { expect, test } from 'vitest';
import { batchSize } from '../../src/search/batch-size.js';

test('batches follow from the budget alone: 48 up to 24,000 dummies, then a five-hundredth, 4,800 at most', () => {
  expect([1, 4000, 24_000, 100_000, 1_000_000, 10_000_000].map(batchSize)).toEqual([
    48, 48, 48, 200, 2000, 4800,
  ]);
  // How many there will be is not known where time ends a study.
  expect(batchSize(Number.POSITIVE_INFINITY)).toBe(48);
});
