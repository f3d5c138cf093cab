import { Search } from '../search/search.js';
import { figurePool, rowsIn } from '../study/figure-pool.js';
import type { ScoreLog } from '../study/score-log.js';
import { type Comparison, compareVariants } from './compare.js';
import type { Variant } from './variants.js';

export interface CompareRun {
  /** How many dummies to score at most, for each variant and seed. */
  readonly samples: number;
  readonly seeds: readonly number[];
  /** Threads to score with. */
  readonly workers: number;
  readonly stop: AbortSignal;
  /** Keeps what was scored, to go on with it after an interruption. */
  readonly log: ScoreLog;
  readonly onScored?: (works: boolean) => void;
}

/**
 * Explores every variant alike in worker threads, and weighs them.
 * @returns null when it was stopped
 * @throws InputError when their wants differ
 */
export function runComparison(
  variants: readonly Variant[],
  { samples, seeds, workers, stop, log, onScored }: CompareRun,
): Promise<Comparison | null> {
  return compareVariants(variants, {
    samples,
    seeds,
    startSearch: (variables, seed, budget, own) => new Search(variables, { seed, budget, own }),
    log,
    scoring({ source }, layout) {
      const pool = figurePool(source, workers);
      return {
        score: (batch) => rowsIn(pool, layout, batch, stop),
        close: () => pool.close(),
      };
    },
    onScored,
  });
}
