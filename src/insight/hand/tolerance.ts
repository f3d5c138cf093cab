import type { Random } from '../../search/random.js';
import { answerAll, type Verdicts } from '../sensitivity/batch.js';
import { type Share, wilson } from '../sensitivity/wilson.js';

/** One length, angle or glue position that is cut by hand. */
export interface CutError {
  name: string;
  /** Standard deviation of the error, in mm or degrees; 0 for what is exact. */
  sigma: number;
}

/** What came of many dummies cut by hand. */
export interface CuttingTolerance {
  /** The share that works, with its 95 % interval. */
  works: Share;
  /** What failed first, and in how many dummies; the commonest first. */
  failures: { failure: string; count: number }[];
  /** What fails with every cut exact; null when it works. */
  asDrawn: string | null;
  /** The errors of each dummy, in standard deviations, and what failed: food for `failureCauses`. */
  dummies: CutDummy[];
}

export interface CutDummy {
  /** One to each cut error, in standard deviations. */
  errors: Float64Array;
  failure: string | null;
}

/**
 * Cuts dummies by hand: every length, angle and glue position off by a normal error of its own, all independent.
 *
 * @param cuts what is cut, and how exactly
 * @param count how many dummies; the 95 % interval is about ± 1 / √count at its widest
 * @param random the same stream for each candidate gives them the same errors, so that they compare fairly
 * @param verdicts takes errors in mm and degrees, one to each cut: all 0 is the figure as drawn
 */
export async function cuttingTolerance(
  cuts: readonly CutError[],
  count: number,
  random: Pick<Random, 'normal'>,
  verdicts: Verdicts,
): Promise<CuttingTolerance> {
  const errors = Array.from({ length: count }, () => Float64Array.from(cuts, () => random.normal()));
  const rows = [new Float64Array(cuts.length), ...errors.map((e) => inUnits(e, cuts))];
  const [asDrawn, ...answers] = await answerAll(verdicts, rows);

  const counts = new Map<string, number>();
  for (const failure of answers) {
    if (failure !== null) counts.set(failure, (counts.get(failure) ?? 0) + 1);
  }
  const failures = Array.from(counts, ([failure, times]) => ({ failure, count: times }));
  failures.sort((a, b) => b.count - a.count || (a.failure < b.failure ? -1 : 1));
  return {
    works: wilson(answers.filter((failure) => failure === null).length, count),
    failures,
    asDrawn,
    dummies: errors.map((e, k) => ({ errors: e, failure: answers[k] })),
  };
}

/** Errors in standard deviations → mm and degrees. */
export function inUnits(errors: Float64Array, cuts: readonly CutError[]): Float64Array {
  return errors.map((error, k) => error * cuts[k].sigma);
}
