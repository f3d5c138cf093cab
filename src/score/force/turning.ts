import type { Figure } from '../../figure/figure.js';
import type { Unknown } from '../../limits/finding.js';
import type { Assembly } from '../../motion/assembly.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { Opening } from '../../motion/opening.js';
import { chainPulls } from './chain-pulls.js';
import { type ForceCurve, type ForceScore, forceOf } from './force.js';
import { strengthsOf } from './strengths.js';

/** How hard a page is to turn, at every page angle that it reaches. */
export interface TurningForce {
  readonly curve: ForceCurve;
  readonly score: ForceScore;
  /** N at the page's edge: up to here it is easy to turn, up to there hard; beyond, it jams. */
  readonly easy: number;
  readonly hard: number;
}

/** That of one candidate; or why it is not known. */
export type Turning =
  | (TurningForce & {
      /** Degrees; null where it shuts. */
      readonly locksAt: number | null;
    })
  | { readonly unknown: Unknown };

/** That of a figure that is built, and moves; null where it never opens flat. */
export function turningIn(
  { card, limits }: Pick<Figure, 'card' | 'limits'>,
  assembly: Assembly,
  opening: Opening,
): TurningForce | null {
  const strengths = strengthsOf(limits);
  const force = forceOf(assembly, opening, card, strengths, chainPulls(assembly, opening, card));
  return force && { ...force, easy: strengths.easy, hard: strengths.hard };
}

/** @param vector of the figure: see `Figure` */
export function turningOf(figure: Figure, vector: Float64Array): Turning {
  const opening = new Opening();
  try {
    const assembly = figure.build(vector);
    opening.run(assembly, figure.opening.step);
    const { lock } = opening;
    const force = turningIn(figure, assembly, opening);
    if (force === null)
      return { unknown: { because: 'it never opens flat', pageAngle: lock?.pageAngle ?? 180 } };
    return { ...force, locksAt: lock?.pageAngle ?? null };
  } catch (error) {
    if (!(error instanceof CannotBuild)) throw error;
    const reason = `${error.message} (line ${figure.lineOf(error.field)})`;
    return { unknown: { because: 'it cannot be built', reason } };
  }
}
