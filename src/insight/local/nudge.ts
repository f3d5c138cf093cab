import type { Variable } from '../../search/evaluator.js';
import { answerAll, type Batch } from '../sensitivity/batch.js';

/** What one score does per +1 unit of one dim of a candidate, all others as they are. */
export interface Nudge {
  /** In the score's unit per +1 mm or +1°; null when `reason` says why not. */
  change: number | null;
  reason: string | null;
  /** Which neighbours it was taken from: one alone at an end of the range, or where the other could not be computed. */
  from: 'both sides' | 'above' | 'below' | null;
  /** The slopes on either side, in the same unit; null where there is none. At a corner of the score they differ. */
  sides: { below: number | null; above: number | null };
}

const NO_SIDES = { below: null, above: null };

/**
 * The change of every score per +1 unit of every dim of a candidate, by central differences:
 * (f(x + h) − f(x − h)) / 2h, whose error falls as h², or (f(x ± h) − f(x)) / ±h, whose error falls as h.
 * Scores have corners (the worst page angle moves on), and there the central difference is the mean of both slopes.
 *
 * @param batch takes dim values in mm, degrees or option numbers
 * @param values the candidate
 * @param reach h, in the dims' units; a stepped dim moves by the nearest whole number of steps, at least one
 * @returns nudges[dim][score]
 */
export async function nudges(
  batch: Batch,
  variables: readonly Variable[],
  values: Float64Array,
  reach: number,
): Promise<Nudge[][]> {
  const rows: Float64Array[] = [values];
  const sides = variables.map((variable, dim) => {
    const move = moveOf(variable, reach);
    const row = (to: number) => {
      if (!within(variable, to)) return null;
      const nudged = values.slice();
      nudged[dim] = to;
      return rows.push(nudged) - 1;
    };
    return { move, above: row(values[dim] + move), below: row(values[dim] - move) };
  });
  const answers = await answerAll(batch, rows);

  return variables.map((variable, dim) => {
    const { move, above, below } = sides[dim];
    return Array.from(answers[0], (here, score): Nudge => {
      if (variable.kind === 'choice')
        return { change: null, reason: 'a choice has no +1', from: null, sides: NO_SIDES };
      if (above === null && below === null) {
        return { change: null, reason: 'the range leaves no room for a nudge', from: null, sides: NO_SIDES };
      }
      const up = above === null ? Number.NaN : answers[above][score];
      const down = below === null ? Number.NaN : answers[below][score];
      const [rise, fall] = [(up - here) / move, (here - down) / move];
      const known = (slope: number) => (Number.isNaN(slope) ? null : slope);
      const sides = { below: known(fall), above: known(rise) };
      const both = (up - down) / (2 * move);
      if (!Number.isNaN(both)) return { change: both, reason: null, from: 'both sides', sides };
      if (sides.above !== null) return { change: rise, reason: null, from: 'above', sides };
      if (sides.below !== null) return { change: fall, reason: null, from: 'below', sides };
      const reason = 'the score could not be computed on both ends of a nudge';
      return { change: null, reason, from: null, sides };
    });
  });
}

/** How far a dim moves for a nudge. */
function moveOf(variable: Variable, reach: number): number {
  if (variable.kind === 'choice' || !variable.step) return reach;
  return Math.max(1, Math.round(reach / variable.step)) * variable.step;
}

/** Whether a value lies in the range, but for round-off; a choice has no room to move at all. */
function within(variable: Variable, value: number): boolean {
  if (variable.kind === 'choice') return false;
  const slack = 1e-9 * Math.max(1, Math.abs(variable.min), Math.abs(variable.max));
  return value >= variable.min - slack && value <= variable.max + slack;
}
