import type { Cut } from '../../figure/hand/cut.js';
import { stream } from '../../search/random.js';
import { type SafeRange, safeRanges } from '../local/safe-range.js';
import { answerAll, type Verdicts } from '../sensitivity/batch.js';
import { type Share, wilson } from '../sensitivity/wilson.js';
import { type FailureCauses, failureCauses } from './failure-causes.js';
import { type CutError, type CuttingTolerance, cuttingTolerance, inUnits } from './tolerance.js';

/**
 * How exactly is cut: standard deviations of lengths and places, and of angles. Where a tab lies on which the page is shut
 * is off by half as much.
 */
export interface Hand {
  readonly mm: number;
  readonly degrees: number;
}

/** A practised hand with a knife and a steel rule. Common practice, no source. */
export const HAND: Hand = { mm: 0.3, degrees: 0.3 };

/** The errors of a hand on what a template says is cut. */
export function cutErrors(cuts: readonly Cut[], hand: Hand): CutError[] {
  return cuts.map((cut) => ({ name: `${cut.part}: ${cut.field}`, sigma: sigmaOf(cut, hand) }));
}

/** The standard deviation of one cut, in its unit. */
export const sigmaOf = ({ unit, closedOn }: Cut, hand: Hand): number =>
  closedOn ? hand[unit] / 2 : hand[unit];

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

/** Errors are tried out up to so many standard deviations. */
const FARTHEST = 3;
/** To within this the least error that fails is found. */
const FINE = { mm: 0.05, degrees: 0.1 } as const;

/**
 * How far off each cut may be by itself, all others exact, and what fails first beyond: up to three standard deviations.
 * For each cut a safe range about 0.
 */
export function roomOfCuts(cuts: readonly Cut[], hand: Hand, verdicts: Verdicts): Promise<SafeRange[]> {
  const far = cuts.map((cut) => FARTHEST * sigmaOf(cut, hand));
  return safeRanges(
    verdicts,
    cuts.map(({ field }, i) => ({ name: field, kind: 'real', min: -far[i], max: far[i] })),
    new Float64Array(cuts.length),
    cuts.map(({ unit }, i) => ({ coarse: Math.max(far[i], FINE[unit]), tolerance: FINE[unit] })),
  );
}

/** So many errors are put to the proof, and so many failed dummies cut again for each. */
const SUSPECTS = 8;
const CUT_AGAIN = 40;

/**
 * Which of the errors cause the failures among dummies that have been cut. Suspected are those that fail the figure by
 * themselves when they are least; where none does, those that go with failures.
 */
export function guiltyErrors(
  cuts: readonly Cut[],
  hand: Hand,
  { dummies }: CuttingTolerance,
  rooms: readonly SafeRange[],
  verdicts: Verdicts,
): Promise<FailureCauses> {
  const suspects = cuts
    .map((cut, k) => ({ k, least: leastError(rooms[k]) / sigmaOf(cut, hand) }))
    .filter(({ least }) => Number.isFinite(least))
    .sort((a, b) => a.least - b.least || a.k - b.k)
    .slice(0, SUSPECTS)
    .map(({ k }) => k);
  return failureCauses(
    cutErrors(cuts, hand),
    dummies,
    verdicts,
    suspects.length > 0 ? suspects : SUSPECTS,
    CUT_AGAIN,
  );
}

/** The least error that fails, in its unit; infinite where none was found to. */
export function leastError({ range }: SafeRange): number {
  if (range === null) return Number.POSITIVE_INFINITY;
  const { low, high } = range;
  return Math.min(
    low.failure === null ? Number.POSITIVE_INFINITY : -low.value,
    high.failure === null ? Number.POSITIVE_INFINITY : high.value,
  );
}

/** For each part, how many of the failed dummies work when they are cut again with all of it exact. */
export async function guiltyParts(
  cuts: readonly Cut[],
  hand: Hand,
  { dummies }: CuttingTolerance,
  parts: readonly string[],
  verdicts: Verdicts,
): Promise<{ part: string; cured: Share }[]> {
  const again = dummies.filter(({ failure }) => failure !== null).slice(0, CUT_AGAIN);
  if (again.length === 0) return [];
  const errors = cutErrors(cuts, hand);
  const rows = parts.flatMap((part) =>
    again.map((dummy) =>
      inUnits(
        dummy.errors.map((error, k) => (cuts[k].part === part ? 0 : error)),
        errors,
      ),
    ),
  );
  const answers = await answerAll(verdicts, rows);
  return parts
    .map((part, p) => {
      const mine = answers.slice(p * again.length, (p + 1) * again.length);
      return { part, cured: wilson(mine.filter((failure) => failure === null).length, again.length) };
    })
    .sort((a, b) => b.cured.share - a.cured.share);
}
