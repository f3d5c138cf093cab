import { bootstrap } from './bootstrap.js';
import type { Random } from './random.js';

/** How far one score lies from what was expected of dummies that were not learnt from. */
export interface HeldOutError {
  /** How many dummies. */
  readonly rows: number;
  /** Share of the variance that is explained (R squared); 1 is perfect, 0 no better than the mean. */
  readonly explained: number;
  /** With 97.5 % confidence it explains no less than this (bootstrap). */
  readonly atLeast: number;
  /** Root of the mean square of the error, in the score's unit. */
  readonly rms: number;
}

/** Fewer dummies than this don't tell how well anything is explained. Common practice, no source. */
const LEAST = 30;

/**
 * @param truth a score; pairs in which it or what was said of it is not known (NaN) are left out
 * @param random for the bootstrap
 * @returns null where there is too little to tell
 */
export function heldOutError(
  truth: ArrayLike<number>,
  said: ArrayLike<number>,
  random: Random,
): HeldOutError | null {
  const known = Array.from({ length: truth.length }, (_, i) => i).filter((i) =>
    Number.isFinite(truth[i] - said[i]),
  );
  if (known.length < LEAST) return null;
  const squares = known.map((i) => (truth[i] - said[i]) ** 2);
  const explainedOf = (weights: ArrayLike<number>) => {
    let [count, sum, about, misses] = [0, 0, 0, 0];
    known.forEach((i, k) => {
      count += weights[k];
      sum += weights[k] * truth[i];
    });
    known.forEach((i, k) => {
      about += weights[k] * (truth[i] - sum / count) ** 2;
      misses += weights[k] * squares[k];
    });
    return about > 0 ? 1 - misses / about : Number.NaN;
  };
  const explained = explainedOf(known.map(() => 1));
  if (Number.isNaN(explained)) return null;
  const [{ low }] = bootstrap(known.length, (weights) => [explainedOf(weights)], random, 200);
  const rms = Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / known.length);
  return { rows: known.length, explained, atLeast: low, rms };
}

/** How well expectations fit candidates that were not learnt from. Null where there is too little to tell. */
export interface HeldOut {
  /** How many candidates. */
  rows: number;
  /** Share of the variance that is explained (R squared), for each objective; 1 is perfect, 0 no better than the mean. */
  objectives: (number | null)[];
  /**
   * For soundness (breaking no limit), then for each kind of failure: the odds that of two candidates, one that did and one
   * that did not, the right one is given higher odds. 1 is perfect, 0.5 a coin.
   */
  ordered: (number | null)[];
  /** For the same: mean of minus the natural logarithm of the odds given to what came true; ln 2 = 0.69 for a coin. */
  logLoss: (number | null)[];
}

/** Odds nearer to certainty than this count as this, lest one sure mistake be endless. */
const SURE = 1e-4;

/**
 * @param truths rows of targets: amounts (objectives and at last the violation), then 0 or 1 for soundness and failures
 * @param said what was expected of row i in column j
 */
export function heldOut(
  truths: readonly Float32Array[],
  said: (row: number, column: number) => number,
  amounts: number,
): HeldOut {
  const column = (j: number) => {
    const pairs: { truth: number; said: number }[] = [];
    truths.forEach((target, i) => {
      if (Number.isFinite(target[j])) pairs.push({ truth: target[j], said: said(i, j) });
    });
    return pairs;
  };
  const odds = Array.from({ length: Math.max(0, (truths[0]?.length ?? 0) - amounts) }, (_, k) =>
    column(amounts + k),
  );
  return {
    rows: truths.length,
    objectives: Array.from({ length: amounts - 1 }, (_, j) => explained(column(j))),
    ordered: odds.map(ordered),
    logLoss: odds.map(logLoss),
  };
}

type Pairs = readonly { truth: number; said: number }[];

function explained(pairs: Pairs): number | null {
  const mean = pairs.reduce((sum, { truth }) => sum + truth, 0) / pairs.length;
  const variance = pairs.reduce((sum, { truth }) => sum + (truth - mean) ** 2, 0);
  if (!(variance > 0)) return null;
  return 1 - pairs.reduce((sum, { truth, said }) => sum + (truth - said) ** 2, 0) / variance;
}

/** Area under the ROC curve, from ranks (H. B. Mann, D. R. Whitney 1947); equal odds share their ranks. */
function ordered(pairs: Pairs): number | null {
  const sorted = [...pairs].sort((a, b) => a.said - b.said);
  let [ranks, positive] = [0, 0];
  for (let i = 0; i < sorted.length; ) {
    let end = i;
    while (end < sorted.length && sorted[end].said === sorted[i].said) end++;
    for (let k = i; k < end; k++) {
      if (sorted[k].truth !== 1) continue;
      positive++;
      ranks += (i + end + 1) / 2;
    }
    i = end;
  }
  const negative = sorted.length - positive;
  if (positive === 0 || negative === 0) return null;
  return (ranks - (positive * (positive + 1)) / 2) / (positive * negative);
}

function logLoss(pairs: Pairs): number | null {
  if (pairs.length === 0) return null;
  const loss = pairs.reduce((sum, { truth, said }) => {
    const odds = Math.min(1 - SURE, Math.max(SURE, said));
    return sum - Math.log(truth === 1 ? odds : 1 - odds);
  }, 0);
  return loss / pairs.length;
}
