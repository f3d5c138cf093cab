import { bootstrap } from '../../search/bootstrap.js';
import type { Random } from '../../search/random.js';
import { answerAll, type Batch, type PointSource } from './batch.js';
import { saltelliRows } from './saltelli.js';
import { DOES_NOT_VARY, varies } from './varies.js';

/** Fewer base points than this say nothing about a variance. Common practice, no source. */
const LEAST_KEPT = 32;

/** When more resamples than this lack any variance, the output varies too rarely to be measured. */
const MOST_UNDEFINED = 0.05;
const VARIES_TOO_RARELY = 'varies in too few runs to be measured';

/** How much of one score's variance one dim explains: alone (`first`), and with all it acts through (`total`). */
export interface SobolIndex {
  first: number;
  firstLow: number;
  firstHigh: number;
  total: number;
  totalLow: number;
  totalHigh: number;
}

export interface SobolResult {
  /** Null when it could not be measured; `reason` then says why. */
  index: SobolIndex | null;
  reason: string | null;
  /** The share of base points left out because a run they need could not be computed. */
  droppedShare: number;
}

export interface SobolSettings {
  /** Base points; each costs dims + 2 runs. With a Sobol sequence, a power of two fills the cube best. */
  count: number;
  /** Writes point `index` of a 2·dims-dimensional sequence in the unit cube; scramble one whose first point is a corner. */
  point: PointSource;
  /** For the bootstrap. */
  random: Random;
  resamples?: number;
}

/**
 * First-order and total Sobol indices of every score in every dim, from fresh runs.
 * Rows handed to `batch` lie in the unit cube; a choice among n options is a dim cut into n equal parts.
 * @returns results[dim][score]
 */
export async function sobolSensitivity(
  batch: Batch,
  dims: number,
  settings: SobolSettings,
): Promise<SobolResult[][]> {
  const answers = await answerAll(batch, saltelliRows(settings.count, dims, settings.point));
  return indicesOfAll(answers, dims, settings.random, settings.resamples);
}

/**
 * First-order and total Sobol indices of every score.
 * @param answers all scores of the rows of `saltelliRows`, in their order
 * @param looked how many dims were asked about
 * @returns results[dim][score], of the dims asked about
 */
export function indicesOfAll(
  answers: readonly Float64Array[],
  looked: number,
  random: Random,
  resamples?: number,
): SobolResult[][] {
  const results: SobolResult[][] = Array.from({ length: looked }, () => []);
  const scores = answers[0]?.length ?? 0;
  for (let score = 0; score < scores; score++) {
    const values = Float64Array.from(answers, (answer) => answer[score]);
    const byDim = sobolIndices(values, looked, random, resamples);
    for (let dim = 0; dim < looked; dim++) results[dim].push(byDim[dim]);
  }
  return results;
}

/**
 * Sobol indices of one output. With V the variance of f, and x₋ᵢ all dims but i:
 *
 *   first  Sᵢ  = V[E(f | xᵢ)] / V = E[ f(B) (f(ABᵢ) − f(A)) ] / V,
 *          since B and ABᵢ share xᵢ alone, E[f(B) f(ABᵢ)] = E[E(f | xᵢ)²], and E[f(B) f(A)] = E(f)²
 *          (Saltelli et al. 2010, table 2, row b);
 *   total  STᵢ = E[V(f | x₋ᵢ)] / V = E[ (f(A) − f(ABᵢ))² ] / 2V,
 *          since A and ABᵢ differ in xᵢ alone, and half the mean square of the difference of two independent draws is
 *          their variance (M. J. W. Jansen, Computer Physics Communications 117 (1999) 35-43).
 *
 * f is centred first: a constant changes neither expectation, but multiplies the scatter of the first.
 * Base points whose A, B or ABᵢ is NaN are left out for that dim. What is left describes the part of the ranges where
 * the output exists, and there the dims are no longer strictly independent: show the dropped share beside the index.
 * A first-order index below 0 by less than its interval is scatter about 0.
 *
 * @param values one output, in the order of `saltelliRows`
 */
function sobolIndices(values: Float64Array, dims: number, random: Random, resamples = 400): SobolResult[] {
  const width = dims + 2;
  const count = Math.floor(values.length / width);
  const tables = Array.from({ length: dims }, (_, dim) => termsOf(values, width, count, dim));

  const reasons = tables.map((terms): string | null => {
    if (terms.kept < LEAST_KEPT) return `only ${terms.kept} of ${count} base points could be computed`;
    if (varies(terms.pairs)) return null;
    return varies(terms.jump) ? VARIES_TOO_RARELY : DOES_NOT_VARY;
  });
  const statistics = (weights: Float64Array) => {
    const out = new Float64Array(2 * dims).fill(Number.NaN);
    tables.forEach((terms, dim) => {
      if (reasons[dim] === null) estimate(terms, weights, out, 2 * dim);
    });
    return out;
  };
  const best = statistics(new Float64Array(count).fill(1));
  const measurable = reasons.includes(null);
  const intervals = measurable ? bootstrap(count, statistics, random, resamples) : [];

  return tables.map((terms, dim) => {
    const droppedShare = count === 0 ? 0 : 1 - terms.kept / count;
    if (reasons[dim] !== null) return { index: null, reason: reasons[dim], droppedShare };
    const [first, total] = [intervals[2 * dim], intervals[2 * dim + 1]];
    if (first.undefinedShare > MOST_UNDEFINED) {
      return { index: null, reason: VARIES_TOO_RARELY, droppedShare };
    }
    const index = {
      first: best[2 * dim],
      firstLow: first.low,
      firstHigh: first.high,
      total: best[2 * dim + 1],
      totalLow: total.low,
      totalHigh: total.high,
    };
    return { index, reason: null, droppedShare };
  });
}

/** What each base point adds to the sums of one dim: all 0 for a base point left out. */
interface Terms {
  kept: number;
  /** 1 where kept. */
  keep: Float64Array;
  /** f(B) (f(ABᵢ) − f(A)). */
  product: Float64Array;
  /** f(ABᵢ) − f(A). */
  jump: Float64Array;
  /** f(A) + f(B). */
  sum: Float64Array;
  /** f(A)² + f(B)². */
  square: Float64Array;
  /** The f(A), f(B) kept, uncentred. */
  pairs: number[];
}

function termsOf(values: Float64Array, width: number, count: number, dim: number): Terms {
  const [keep, product, jump, sum, square] = Array.from({ length: 5 }, () => new Float64Array(count));
  const rows: number[] = [];
  const pairs: number[] = [];
  let mean = 0;
  for (let row = 0; row < count; row++) {
    const [a, b, ab] = [values[row * width], values[row * width + 1], values[row * width + 2 + dim]];
    if (!Number.isFinite(a + b + ab)) continue;
    rows.push(row);
    pairs.push(a, b);
    mean += (a + b - mean * 2) / pairs.length;
  }
  for (const row of rows) {
    const a = values[row * width] - mean;
    const b = values[row * width + 1] - mean;
    keep[row] = 1;
    jump[row] = values[row * width + 2 + dim] - mean - a;
    product[row] = b * jump[row];
    sum[row] = a + b;
    square[row] = a * a + b * b;
  }
  return { kept: rows.length, keep, product, jump, sum, square, pairs };
}

/** Writes Sᵢ and STᵢ for weighted base points to out[at], out[at + 1]; NaN where nothing varies. */
function estimate(terms: Terms, weights: Float64Array, out: Float64Array, at: number): void {
  let [kept, product, jumps, sum, square] = [0, 0, 0, 0, 0];
  for (let row = 0; row < weights.length; row++) {
    const weight = weights[row];
    const step = terms.jump[row];
    kept += weight * terms.keep[row];
    product += weight * terms.product[row];
    jumps += weight * step * step;
    sum += weight * terms.sum[row];
    square += weight * terms.square[row];
  }
  const mean = sum / (2 * kept);
  const variance = square / (2 * kept) - mean * mean;
  // Equal values leave a variance of pure round-off.
  const defined = kept > 0 && variance > 1e-9 * (square / (2 * kept));
  out[at] = defined ? product / (kept * variance) : Number.NaN;
  out[at + 1] = defined ? jumps / (2 * kept * variance) : Number.NaN;
}
