import { probit, sampleRankCorrelation } from 'simple-statistics';
import { DOES_NOT_VARY, varies } from './varies.js';

/** Fewer pairs than this say nothing about a trend. Common practice, no source. */
const LEAST_PAIRS = 10;

export interface RankCorrelation {
  /** Between −1 and 1, or null; `reason` then says why. */
  value: number | null;
  reason: string | null;
}

/**
 * Spearman's rank correlation of a dim with a score, ties sharing the mean of their ranks: 1 when the score only ever
 * rises with the dim, −1 when it only falls, however crooked the curve. Pairs with a NaN are left out.
 *
 * Give it a choice only if its options have an order, or if there are two of them.
 * Source: C. Spearman, American Journal of Psychology 15 (1904) 72-101; the ties as in S. Siegel, Nonparametric
 * Statistics (1956), section 9.
 */
export function rankCorrelation(dim: ArrayLike<number>, score: ArrayLike<number>): RankCorrelation {
  const xs: number[] = [];
  const ys: number[] = [];
  for (let i = 0; i < dim.length; i++) {
    if (Number.isNaN(dim[i]) || Number.isNaN(score[i])) continue;
    xs.push(dim[i]);
    ys.push(score[i]);
  }
  if (xs.length < LEAST_PAIRS) {
    return { value: null, reason: `only ${xs.length} of ${dim.length} dummies could be computed` };
  }
  if (!varies(xs)) return { value: null, reason: 'the dim does not vary' };
  if (!varies(ys)) return { value: null, reason: DOES_NOT_VARY };
  return { value: sampleRankCorrelation(xs, ys), reason: null };
}

/** Of studies in which no dim has a trend, one in so many may be told of one. */
const FALSE_TRENDS = 100;

/**
 * Whether the strongest of several rank correlations is more than chance: among as many dims without a trend, the strongest would be as strong
 * in less than one of a hundred studies. Without one, a rank correlation of n pairs has the variance 1/(n − 1), and is nearly normal (M. G. Kendall,
 * Rank Correlation Methods, 1948, from memory).
 * @param pairs of how many dummies
 * @param dims of how many dims it is the strongest
 */
export function isTrend(strongest: number, pairs: number, dims: number): boolean {
  return Math.abs(strongest) * Math.sqrt(pairs - 1) > probit(1 - 1 / (2 * FALSE_TRENDS * dims));
}
