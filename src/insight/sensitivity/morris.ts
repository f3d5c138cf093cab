import { mean, sampleStandardDeviation } from 'simple-statistics';
import type { Random } from '../../search/random.js';
import { answerAll, type Batch } from './batch.js';

/** Levels of the grid on which trajectories walk, and the step between them: p = 4, Δ = p / 2(p − 1), as in Morris. */
const LEVELS = 4;
const STEP = LEVELS / (2 * (LEVELS - 1));

/** Fewer effects than this have no spread worth naming. Common practice, no source. */
const LEAST_EFFECTS = 4;

/** Elementary effects of one dim on one score, in the score's unit per full range of the dim. */
export interface MorrisEffect {
  /** Mean of the effects: near 0 also when rises and falls cancel. */
  mean: number;
  /** Mean of the sizes of the effects (mu*): how much the dim matters. */
  size: number;
  /** Standard error of `size`. */
  sizeError: number;
  /** Standard deviation of the effects (sigma): a bent response, or one that depends on other dims. */
  spread: number;
}

export interface MorrisResult {
  /** Null when it could not be measured; `reason` then says why. */
  effect: MorrisEffect | null;
  reason: string | null;
  /** The share of effects left out because a run they need could not be computed. */
  droppedShare: number;
}

/**
 * Random walks through the unit cube's grid of 4 levels, in each of which every dim steps once by Δ = 2/3, up or
 * down, in a random order. A step of Δ changes an option of every choice, and is never too small to rise above the
 * round-off of a score.
 *
 * Source: M. D. Morris, Factorial sampling plans for preliminary computational experiments, Technometrics 33 (1991)
 * 161-174.
 * @returns rows, dims + 1 to each walk; consecutive rows of a walk differ in one dim
 */
export function morrisRows(walks: number, dims: number, random: Random): Float64Array[] {
  const rows: Float64Array[] = [];
  const order = Array.from({ length: dims }, (_, dim) => dim);
  for (let walk = 0; walk < walks; walk++) {
    const low = Float64Array.from({ length: dims }, () => random.below(LEVELS / 2) / (LEVELS - 1));
    const down = Array.from({ length: dims }, () => random.below(2) === 1);
    let row = low.map((level, dim) => (down[dim] ? level + STEP : level));
    rows.push(row);
    for (const dim of random.shuffle(order)) {
      row = row.slice();
      row[dim] = down[dim] ? low[dim] : low[dim] + STEP;
      rows.push(row);
    }
  }
  return rows;
}

/**
 * Screening: how much each dim matters to each score, at dims + 1 runs a walk.
 * Rows handed to `batch` lie in the unit cube; a choice among n options is a dim cut into n equal parts.
 * @returns results[dim][score]
 */
export async function morrisScreening(
  batch: Batch,
  dims: number,
  walks: number,
  random: Random,
): Promise<MorrisResult[][]> {
  const rows = morrisRows(walks, dims, random);
  const answers = await answerAll(batch, rows);
  const scores = answers[0]?.length ?? 0;
  const effects = Array.from({ length: dims }, () => Array.from({ length: scores }, () => [] as number[]));
  for (let k = 1; k < rows.length; k++) {
    if (k % (dims + 1) === 0) continue;
    const dim = rows[k].findIndex((value, i) => value !== rows[k - 1][i]);
    const step = rows[k][dim] - rows[k - 1][dim];
    for (let score = 0; score < scores; score++) {
      const change = answers[k][score] - answers[k - 1][score];
      if (!Number.isNaN(change)) effects[dim][score].push(change / step);
    }
  }
  return effects.map((byScore) => byScore.map((sample) => summary(sample, walks)));
}

function summary(effects: number[], walks: number): MorrisResult {
  const n = effects.length;
  const droppedShare = 1 - n / walks;
  if (n < LEAST_EFFECTS) {
    return { effect: null, reason: `only ${n} of ${walks} effects could be computed`, droppedShare };
  }
  const sizes = effects.map(Math.abs);
  const effect = {
    mean: mean(effects),
    size: mean(sizes),
    sizeError: sampleStandardDeviation(sizes) / Math.sqrt(n),
    spread: sampleStandardDeviation(effects),
  };
  return { effect, reason: null, droppedShare };
}

/**
 * The dims worth a closer look: those whose mean size of effect on some score may reach `share` of the largest there,
 * two standard errors taken in the dim's favour; and those whose effect on some score could not be measured.
 * Common practice, no source: 5 to 10 % of the largest.
 * @returns dim numbers, rising
 */
export function dimsWorthALook(results: MorrisResult[][], share: number): number[] {
  const scores = results[0]?.length ?? 0;
  const largest = Array.from({ length: scores }, (_, score) =>
    Math.max(...results.map((byScore) => byScore[score].effect?.size ?? 0)),
  );
  const matters = ({ effect }: MorrisResult, score: number) =>
    effect === null || (effect.size > 0 && effect.size + 2 * effect.sizeError >= share * largest[score]);
  return results.flatMap((byScore, dim) => (byScore.some(matters) ? [dim] : []));
}
