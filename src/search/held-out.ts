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
