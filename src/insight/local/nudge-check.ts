import type { Nudge } from './nudge.js';

/**
 * What the gradient of a surrogate says to a nudge that was truly scored.
 * - 'agrees': the same sign, and within a factor of 3; or next to nothing, both.
 * - 'corner': the score itself has a corner here, so that the slopes on its two sides differ and no gradient fits both.
 * - 'differs': none of these. The surrogate knows little here, or the score bends just beyond the nudge.
 * - 'unsure': the networks differ in sign among themselves.
 */
export type Verdict = 'agrees' | 'corner' | 'differs' | 'unsure';

export interface CheckedNudge extends Nudge {
  /** The surrogate's gradient, in the unit of `change`; null where there is none. */
  readonly surrogate: number | null;
  /** Null where there is no change to check, or where it is no corner and there is no gradient to check it with. */
  readonly verdict: Verdict | null;
}

/** Less than this share of the largest nudge of a score is next to nothing. */
export const FAINT = 0.1;
/** Less than this is round-off. */
const DUST = 1e-6;
/** Slopes of one sign are taken for the same up to this factor: a surrogate smooths. */
const FACTOR = 3;
/** Two sides that differ by more than this share of the steeper one make a corner. */
const CORNER = 0.5;

/**
 * Checks the nudges of one score against a gradient.
 * @param nudges one to each dim
 * @param slopes the gradient, one to each dim; NaN where there is none
 * @param sure whether all networks agree on the sign
 */
export function checkedNudges(
  nudges: readonly Nudge[],
  slopes: ArrayLike<number>,
  sure: readonly boolean[],
): CheckedNudge[] {
  const faint = Math.max(DUST, FAINT * Math.max(...nudges.map(({ change }) => Math.abs(change ?? 0))));
  return nudges.map((nudge, dim): CheckedNudge => {
    const { change, sides } = nudge;
    const surrogate = Number.isNaN(slopes[dim]) ? null : slopes[dim];
    const verdict = (): Verdict | null => {
      if (change === null) return null;
      if (isCorner(sides, faint)) return 'corner';
      if (surrogate === null) return null;
      if (Math.abs(change) <= faint && Math.abs(surrogate) <= faint) return 'agrees';
      const ratio = surrogate / change;
      if (ratio >= 1 / FACTOR && ratio <= FACTOR) return 'agrees';
      return sure[dim] ? 'differs' : 'unsure';
    };
    return { ...nudge, surrogate, verdict: verdict() };
  });
}

function isCorner({ below, above }: Nudge['sides'], faint: number): boolean {
  if (below === null || above === null) return false;
  const steeper = Math.max(Math.abs(below), Math.abs(above));
  return steeper > faint && Math.abs(below - above) > CORNER * steeper;
}
