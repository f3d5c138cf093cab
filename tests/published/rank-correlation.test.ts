import { expect, test } from 'vitest';
import { rankCorrelation } from '../../src/insight/sensitivity/rank-correlation.js';

/** S. Siegel, Nonparametric Statistics for the Behavioral Sciences (1956), section 9, twelve students; from memory. */
const STRIVING = [42, 46, 39, 37, 65, 88, 86, 56, 62, 92, 54, 81];
const AUTHORITARIANISM = [82, 98, 87, 40, 116, 113, 111, 83, 85, 126, 106, 117];
const YIELDING = [0, 0, 1, 1, 3, 4, 5, 6, 7, 8, 8, 12];

test('without ties: r = 0.82', () => {
  expect(rankCorrelation(AUTHORITARIANISM, STRIVING).value).toBeCloseTo(0.82, 2);
});

test('with ties, from his sums: Σx² = 141.5 (three pairs tied), Σy² = 143, Σd² = 109.5', () => {
  // r = (Σx² + Σy² − Σd²) / 2√(Σx² Σy²) = 0.6151; he prints 0.616. Without the correction for ties it would be 0.617.
  const r = (141.5 + 143 - 109.5) / (2 * Math.sqrt(141.5 * 143));
  expect(rankCorrelation(YIELDING, STRIVING).value).toBeCloseTo(r, 10);
  expect(Math.abs(r - 0.616)).toBeLessThan(0.001);
});
