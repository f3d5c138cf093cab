import { quantileSorted } from 'simple-statistics';
import { wilson } from './wilson.js';

/** A bin with fewer dummies has no 10 % and 90 % points worth drawing. Common practice, no source. */
const LEAST_IN_BIN = 20;

/** A share of fewer dummies than this is too rough to draw: 0 of 60 may still be 6 %. Common practice, no source. */
const LEAST_FOR_SHARE = 60;

/** More bins than this draw scatter, not a curve. */
const MOST_BINS = 20;

/** What a score does in one stretch of a dim, over all the dummies that fall in it. */
export interface ResponsePoint {
  /** The median of the dim over the bin. */
  at: number;
  /** The 10, 50 and 90 % points of the score. */
  low: number;
  middle: number;
  high: number;
  count: number;
}

export interface Response {
  /** From the lowest stretch of the dim to the highest; empty when `reason` says why. */
  points: ResponsePoint[];
  reason: string | null;
  /** The share of dummies left out because the score could not be computed. */
  droppedShare: number;
}

/**
 * The response of a score to a dim: the 10, 50 and 90 % points of the score in bins that hold as many dummies each.
 * The width between them is what the other dims do. A dim of 20 values or fewer (a choice, a coarse step) has a bin to
 * each value instead, and values that fewer than 20 dummies have are left out.
 */
export function responseCurve(dim: ArrayLike<number>, score: ArrayLike<number>): Response {
  return inBins(dim, score, LEAST_IN_BIN, (at, sample) => {
    const sorted = sample.sort((a, b) => a - b);
    const [low, middle, high] = [0.1, 0.5, 0.9].map((p) => quantileSorted(sorted, p));
    return { at, low, middle, high, count: sorted.length };
  });
}

/**
 * The response of a yes or no (0 or 1) to a dim: the share of yes in such bins, with its 95 % interval. A share needs
 * more dummies than a median: 60 to a bin, of a value 20.
 */
export function shareCurve(dim: ArrayLike<number>, yes: ArrayLike<number>): Response {
  return inBins(dim, yes, LEAST_FOR_SHARE, (at, sample) => {
    const share = wilson(sample.filter((value) => value === 1).length, sample.length);
    return { at, low: share.low, middle: share.share, high: share.high, count: share.of };
  });
}

function inBins(
  dim: ArrayLike<number>,
  score: ArrayLike<number>,
  least: number,
  pointOf: (at: number, sample: number[]) => ResponsePoint,
): Response {
  const pairs: [number, number][] = [];
  for (let i = 0; i < dim.length; i++) if (!Number.isNaN(score[i])) pairs.push([dim[i], score[i]]);
  const droppedShare = dim.length === 0 ? 0 : 1 - pairs.length / dim.length;
  if (pairs.length < LEAST_IN_BIN) {
    return {
      points: [],
      reason: `only ${pairs.length} of ${dim.length} dummies could be computed`,
      droppedShare,
    };
  }
  pairs.sort((a, b) => a[0] - b[0]);
  const points = bins(pairs, least).map((bin) => {
    const at = quantileSorted(
      bin.map((pair) => pair[0]),
      0.5,
    );
    return pointOf(
      at,
      bin.map((pair) => pair[1]),
    );
  });
  const reason = points.length === 0 ? `no value of the dim has ${LEAST_IN_BIN} dummies` : null;
  return { points, reason, droppedShare };
}

/** Cuts pairs, sorted by dim, into bins; equal values of the dim stay together. */
function bins(pairs: [number, number][], least: number): [number, number][][] {
  const byValue: [number, number][][] = [];
  for (const pair of pairs) {
    const last = byValue.at(-1);
    if (last && last[0][0] === pair[0]) last.push(pair);
    else byValue.push([pair]);
  }
  if (byValue.length <= MOST_BINS) return byValue.filter((group) => group.length >= LEAST_IN_BIN);

  const enough = Math.max(least, Math.ceil(pairs.length / MOST_BINS));
  const cut: [number, number][][] = [[]];
  for (const group of byValue) {
    if (cut[cut.length - 1].length >= enough) cut.push([]);
    cut[cut.length - 1].push(...group);
  }
  // A rest too small for a bin joins the one before.
  const rest = cut[cut.length - 1];
  if (cut.length > 1 && rest.length < least) cut.splice(-2, 2, [...cut[cut.length - 2], ...rest]);
  return cut;
}
