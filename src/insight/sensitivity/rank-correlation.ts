import { sampleRankCorrelation } from 'simple-statistics';
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
