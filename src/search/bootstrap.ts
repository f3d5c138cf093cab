import { quantileSorted } from 'simple-statistics';
import type { Random } from './random.js';

export interface BootstrapInterval {
  /** The 2.5 % and 97.5 % points of the statistic over the resamples; NaN when it was never defined. */
  low: number;
  high: number;
  /** The share of resamples in which the statistic was undefined (NaN). They are left out of the interval. */
  undefinedShare: number;
}

/**
 * 95 % percentile bootstrap intervals of several statistics of the same runs.
 * Each resample draws `count` runs with replacement; a run drawn twice gets weight 2.
 *
 * Source: B. Efron and R. Tibshirani, An Introduction to the Bootstrap (1993), chapter 13. On runs from a
 * quasi-random sequence the intervals are too wide rather than too narrow: resampling forgets how evenly it fills.
 *
 * @param count how many runs there are
 * @param statistics given a weight for each run, the statistics; NaN where one is undefined
 */
export function bootstrap(
  count: number,
  statistics: (weights: Float64Array) => ArrayLike<number>,
  random: Random,
  resamples: number,
): BootstrapInterval[] {
  const samples: number[][] = [];
  const weights = new Float64Array(count);
  for (let resample = 0; resample < resamples; resample++) {
    weights.fill(0);
    for (let draw = 0; draw < count; draw++) weights[random.below(count)] += 1;
    const values = statistics(weights);
    for (let s = 0; s < values.length; s++) {
      samples[s] ??= [];
      if (!Number.isNaN(values[s])) samples[s].push(values[s]);
    }
  }
  return samples.map((sample) => {
    const undefinedShare = 1 - sample.length / resamples;
    if (sample.length === 0) return { low: Number.NaN, high: Number.NaN, undefinedShare };
    sample.sort((a, b) => a - b);
    return { low: quantileSorted(sample, 0.025), high: quantileSorted(sample, 0.975), undefinedShare };
  });
}
