import type { Figure } from '../figure/figure.js';
import type { Cut } from '../figure/hand/cut.js';
import type { FailureCauses } from './hand/failure-causes.js';
import { guiltyErrors, guiltyParts, type Hand, leastError, roomOfCuts } from './hand/figure-tolerance.js';
import type { CuttingTolerance } from './hand/tolerance.js';
import type { LocalInsight } from './local/figure-local.js';
import type { SafeRange } from './local/safe-range.js';
import type { Share } from './sensitivity/wilson.js';
import type { FigureTrials } from './trials.js';

/** How exact one candidate must be cut. */
export interface HandInsight {
  /** The lengths, angles and places that err by themselves, and how far off each may be, all others exact. */
  readonly cuts: readonly Cut[];
  readonly rooms: readonly SafeRange[];
  /** What came of dummies cut by hand; their errors are left out. */
  readonly tolerance: Omit<CuttingTolerance, 'dummies'>;
  readonly causes: FailureCauses;
  /** The parts of which a single error can fail it: how many failed dummies work with all of it exact; the worst first. */
  readonly parts: readonly { part: string; cured: Share }[];
}

/** What a maker asks of one candidate: how exact it must be cut, how far each dim may go, which way to nudge it. */
export type CandidateInsight = HandInsight & LocalInsight;

/**
 * How exact one candidate must be cut, from dummies of it that were cut by hand, by true scoring.
 * @param cut what came of them, with the errors of `hand`
 * @throws CannotBuild where there is no such candidate; Stopped
 */
export async function handInsight(
  trials: FigureTrials,
  figure: Figure,
  vector: Float64Array,
  hand: Hand,
  cut: CuttingTolerance,
): Promise<HandInsight> {
  const { cuts } = figure.template(vector);
  const verdicts = trials.cutVerdicts(vector);
  const rooms = await roomOfCuts(cuts, hand, verdicts);
  const causes = await guiltyErrors(cuts, hand, cut, rooms, verdicts);
  const guilty = cuts.filter((_, k) => Number.isFinite(leastError(rooms[k])));
  const parts = [...new Set(guilty.map(({ part }) => part))];
  const { works, failures, asDrawn } = cut;
  return {
    cuts,
    rooms,
    tolerance: { works, failures, asDrawn },
    causes,
    parts: await guiltyParts(cuts, hand, cut, parts, verdicts),
  };
}
