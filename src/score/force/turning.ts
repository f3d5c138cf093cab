import type { Figure } from '../../figure/figure.js';
import type { Unknown } from '../../limits/finding.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { Opening } from '../../motion/opening.js';
import { chainPulls } from './chain-pulls.js';
import { type ForceCurve, type ForceScore, forceOf } from './force.js';
import { strengthsOf } from './strengths.js';

/** How hard the page of one candidate is to turn, at every page angle; or why that is not known. */
export type Turning =
  | {
      readonly curve: ForceCurve;
      readonly score: ForceScore;
      /** N at the page's edge: up to here it is easy to turn, up to there hard; beyond, it jams. */
      readonly easy: number;
      readonly hard: number;
      /** Degrees; null where it shuts. */
      readonly locksAt: number | null;
    }
  | { readonly unknown: Unknown };

/** @param vector of the figure: see `Figure` */
export function turningOf(figure: Figure, vector: Float64Array): Turning {
  const opening = new Opening();
  try {
    const assembly = figure.build(vector);
    opening.run(assembly, figure.opening.step);
    const { lock } = opening;
    const strengths = strengthsOf(figure.limits);
    const force = forceOf(
      assembly,
      opening,
      figure.card,
      strengths,
      chainPulls(assembly, opening, figure.card),
    );
    if (force === null)
      return { unknown: { because: 'it never opens flat', pageAngle: lock?.pageAngle ?? 180 } };
    const { easy, hard } = strengths;
    return { ...force, easy, hard, locksAt: lock?.pageAngle ?? null };
  } catch (error) {
    if (!(error instanceof CannotBuild)) throw error;
    const reason = `${error.message} (line ${figure.lineOf(error.field)})`;
    return { unknown: { because: 'it cannot be built', reason } };
  }
}
