import type { Figure } from '../figure/figure.js';
import type { Cut } from '../figure/template.js';
import { nudgesOf, safeRangesOf } from './figure-local.js';
import {
  cutByHand,
  cutErrors,
  guiltyErrors,
  guiltyParts,
  type Hand,
  leastError,
  roomOfCuts,
} from './figure-tolerance.js';
import type { FigureTrials } from './figure-trials.js';
import { variablesOf } from './figure-variables.js';
import type { FailureCauses } from './sensitivity/failure-causes.js';
import type { Nudge } from './sensitivity/nudge.js';
import type { SafeRange } from './sensitivity/safe-range.js';
import type { CuttingTolerance } from './sensitivity/tolerance.js';
import type { Share } from './sensitivity/wilson.js';

/** What a maker asks of one candidate: how exact it must be cut, how far each dim may go, which way to nudge it. */
export interface CandidateInsight {
  /** The lengths, angles and places that err by themselves, and how far off each may be, all others exact. */
  readonly cuts: readonly Cut[];
  readonly rooms: readonly SafeRange[];
  /** What came of dummies cut by hand; their errors are left out. */
  readonly tolerance: Omit<CuttingTolerance, 'dummies'>;
  readonly causes: FailureCauses;
  /** The parts of which a single error can fail it: how many failed dummies work with all of it exact; the worst first. */
  readonly parts: readonly { part: string; cured: Share }[];
  /** For each free dim. */
  readonly safe: readonly SafeRange[];
  /** [free dim][score], scores as in `scoresOf`. */
  readonly nudges: readonly (readonly Nudge[])[];
}

/**
 * Looks into one candidate, by true scoring.
 * @param dummies how many are cut by hand
 * @throws CannotBuild where there is no such candidate; Stopped
 */
export async function insightInto(
  trials: FigureTrials,
  figure: Figure,
  vector: Float64Array,
  { hand, dummies, seed }: { hand: Hand; dummies: number; seed: number },
): Promise<CandidateInsight> {
  const { cuts } = figure.template(vector);
  const verdicts = trials.cutVerdicts(vector);
  const cut = await cutByHand(cutErrors(cuts, hand), verdicts, dummies, seed);
  const rooms = await roomOfCuts(cuts, hand, verdicts);
  const causes = await guiltyErrors(cuts, hand, cut, rooms, verdicts);
  const guilty = cuts.filter((_, k) => Number.isFinite(leastError(rooms[k])));
  const parts = [...new Set(guilty.map(({ part }) => part))];
  const variables = variablesOf(figure);
  const { works, failures, asDrawn } = cut;
  return {
    cuts,
    rooms,
    tolerance: { works, failures, asDrawn },
    causes,
    parts: await guiltyParts(cuts, hand, cut, parts, verdicts),
    safe: await safeRangesOf(trials.verdicts, figure.free, variables, vector),
    nudges: await nudgesOf(trials.scores, variables, vector),
  };
}
