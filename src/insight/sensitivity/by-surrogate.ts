import type { HeldOutError } from '../../search/held-out.js';
import type { Random } from '../../search/random.js';
import type { Batch, PointSource } from './batch.js';
import { type SobolIndex, type SobolResult, sobolSensitivity } from './sobol-indices.js';

/** Base points where dims are few: what a surrogate says costs little. */
const BASE = 2048;
/** No more rows than these: they lie in memory all at once, and a base point takes one for each dim and two more. */
const ROWS = 50_000;
/** Less than this share of a score's variance, certainly explained, says too little about what drives it. */
const LEAST_EXPLAINED = 0.5;

/** What has learnt the scores: see `ScoreSurrogate`. */
interface Learnt {
  expect(units: readonly Float64Array[]): Float64Array[];
  readonly heldOut: readonly (HeldOutError | null)[];
}

/**
 * Sobol indices of what a surrogate expects, in place of the scores themselves.
 *
 * Let f = g + e, with e the error of the surrogate g, and u = V(e) / V(f) the share of the variance that it leaves
 * unexplained. What is unexplained may be the doing of any dim, and what g says of a dim may be part of its error: so the
 * intervals are widened by u to both sides, with u as large as the held-out error allows. That is a rule and no bound. The
 * strict bound, from |√Vᵢ(f) − √Vᵢ(g)| ≤ √Vᵢ(e), is wider by 2√(u S), but only an error that lies all in one dim, and there
 * is proportional to what g says, comes near it.
 *
 * @param wanted which scores
 * @param point writes point `index` of a 2·dims-dimensional sequence in the unit cube
 * @returns results[dim][k] for all dims and wanted score k; a reason where the held-out error is too large
 */
export async function surrogateIndices(
  surrogate: Learnt,
  wanted: readonly number[],
  dims: number,
  point: PointSource,
  random: Random,
): Promise<SobolResult[][]> {
  const reasons = wanted.map((score) => whyNot(surrogate.heldOut[score]));
  const asked = wanted.filter((_, k) => reasons[k] === null);
  const batch: Batch = async (rows) =>
    surrogate.expect(rows).map((scores) => Float64Array.from(asked, (score) => scores[score]));
  const measured =
    asked.length > 0
      ? await sobolSensitivity(batch, dims, {
          count: Math.min(BASE, Math.floor(ROWS / (dims + 2))),
          point,
          random,
        })
      : [];
  return Array.from({ length: dims }, (_, dim) =>
    wanted.map((score, k): SobolResult => {
      if (reasons[k] !== null) return { index: null, reason: reasons[k], droppedShare: 0 };
      const result = measured[dim][asked.indexOf(score)];
      const { atLeast } = surrogate.heldOut[score] as HeldOutError;
      return result.index === null ? result : { ...result, index: widened(result.index, 1 - atLeast) };
    }),
  );
}

function whyNot(error: HeldOutError | null): string | null {
  if (error === null) return 'too few dummies to check a surrogate on';
  const { explained, atLeast } = error;
  if (atLeast >= LEAST_EXPLAINED) return null;
  const share = explained <= 0.005 ? 'nothing' : `${Math.round(100 * explained)} %`;
  const sure = explained < LEAST_EXPLAINED ? '' : `, ${Math.max(0, Math.round(100 * atLeast))} % for certain`;
  return `a surrogate explains ${share} of it on dummies that it had not learnt from${sure}: too little to say what drives it`;
}

/** No share is less than none or more than all: with as many base points, what lies beyond is the surrogate's scatter. */
function widened(index: SobolIndex, unexplained: number): SobolIndex {
  const share = (value: number) => Math.min(1, Math.max(0, value));
  return {
    first: share(index.first),
    firstLow: share(index.firstLow - unexplained),
    firstHigh: share(index.firstHigh + unexplained),
    total: share(index.total),
    totalLow: share(index.totalLow - unexplained),
    totalHigh: share(index.totalHigh + unexplained),
  };
}
