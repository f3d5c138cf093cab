import { expect, test } from 'vitest';
import { wilson } from '../../src/insight/sensitivity/wilson.js';

/**
 * R. G. Newcombe, Two-sided confidence intervals for the single proportion: comparison of seven methods, Statistics in
 * Medicine 17 (1998) 857-872, table I, method 3 (score method without continuity correction); from memory.
 */
test.each([
  { count: 81, of: 263, low: 0.2553, high: 0.3662 },
  { count: 15, of: 148, low: 0.0624, high: 0.1605 },
  { count: 0, of: 20, low: 0, high: 0.1611 },
  { count: 1, of: 29, low: 0.0061, high: 0.1718 },
])('$count of $of, as in Newcombe 1998', ({ count, of, low, high }) => {
  const interval = wilson(count, of);
  expect(interval.low).toBeCloseTo(low, 4);
  expect(interval.high).toBeCloseTo(high, 4);
});
