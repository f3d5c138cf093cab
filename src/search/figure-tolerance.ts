import type { Cut } from '../figure/template.js';
import { stream } from './random.js';
import type { Verdicts } from './sensitivity/batch.js';
import { type FailureCauses, failureCauses } from './sensitivity/failure-causes.js';
import { type CutError, type CuttingTolerance, cuttingTolerance } from './sensitivity/tolerance.js';

/** How exactly is cut: standard deviations of lengths and places, and of angles. */
export interface Hand {
  readonly mm: number;
  readonly degrees: number;
}

/** A practised hand with a knife and a steel rule. Common practice, no source. */
export const HAND: Hand = { mm: 0.3, degrees: 0.5 };

/** The errors of a hand on what a template says is cut. */
export function cutErrors(cuts: readonly Cut[], hand: Hand): CutError[] {
  return cuts.map(({ part, field, unit }) => ({ name: `${part}: ${field}`, sigma: hand[unit] }));
}

/**
 * How many dummies of a candidate work when they are cut by hand. Every candidate is cut with the same stream of errors.
 * @param verdicts what fails first of dummies of the candidate, given their errors
 */
export function cutByHand(
  errors: readonly CutError[],
  verdicts: Verdicts,
  dummies: number,
  seed: number,
): Promise<CuttingTolerance> {
  return cuttingTolerance(errors, dummies, stream(seed, 'cut by hand'), verdicts);
}

/** So many errors are put to the proof, and so many failed dummies cut again for each. */
const SUSPECTS = 8;
const CUT_AGAIN = 40;

/** Which of the errors cause the failures among dummies that have been cut. */
export function guiltyErrors(
  errors: readonly CutError[],
  { dummies }: CuttingTolerance,
  verdicts: Verdicts,
): Promise<FailureCauses> {
  return failureCauses(errors, dummies, verdicts, SUSPECTS, CUT_AGAIN);
}
