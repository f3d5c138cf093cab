import type { FreeDim } from '../../figure/dims.js';
import type { CandidateInsight } from '../../insight/figure-insight.js';
import type { Hand } from '../../insight/hand/figure-tolerance.js';
import type { Named } from '../../study/row.js';
import { WORKS_PLACE } from '../../study/scores.js';

/** What was found of one candidate, as `check --json` prints it. Lengths in mm, angles in degrees, shares from 0 to 1. */
export function insightAsJson(
  { cuts, rooms, tolerance, causes, parts, safe, nudges }: CandidateInsight,
  hand: Hand,
  free: readonly FreeDim[],
  vector: Float64Array,
  scores: readonly Pick<Named, 'name' | 'unit'>[],
): object {
  return {
    sigma: hand,
    ...tolerance,
    cuts: cuts.map((cut, k) => ({ ...cut, mayBeOff: rooms[k].range, reason: rooms[k].reason })),
    parts: parts.map(({ part, cured }) => ({ part, wouldHaveSaved: cured })),
    causes: causes.causes.map(({ name, explains, chance, cured, reason }) => ({
      cut: name,
      explains,
      chance,
      wouldHaveSaved: cured,
      ...(reason === null ? {} : { reason }),
    })),
    safeRanges: free.map(({ name, unit }, i) => ({ dim: name, unit, value: vector[i], ...safe[i] })),
    nudges: free.map(({ name, unit }, i) => ({
      dim: name,
      unit,
      // Whether it works is yes or no, and has no slope.
      changes: scores
        .map((score, s) => ({ score: score.name, unit: score.unit, ...nudges[i][s] }))
        .filter((_, s) => s !== WORKS_PLACE),
    })),
  };
}
