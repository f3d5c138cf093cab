import type { HeldOutError } from '../../search/held-out.js';
import type { RankCorrelation } from './rank-correlation.js';
import type { SobolResult } from './sobol-indices.js';

/** One row of the sensitivity table: how much one dim drives one score. Null where `reason` says why not. */
export interface SensitivityRow {
  dim: string;
  score: string;
  first: number | null;
  firstLow: number | null;
  firstHigh: number | null;
  total: number | null;
  totalLow: number | null;
  totalHigh: number | null;
  /** What the indices were taken from; null where there are none. */
  from: 'scoring' | 'surrogate' | null;
  /** How well a surrogate does on this score, on dummies that it had not learnt from; null where none was asked. */
  heldOut: HeldOutError | null;
  rankCorrelation: number | null;
  /** Why a number of this row is missing, or what it rests on; empty when there is nothing to say. */
  reason: string;
}

/**
 * The sensitivity table, dim by dim, and each dim's scores in order.
 * @param indices [dim][score]
 * @param ranks [dim][score]
 * @param from for each score, what its indices were taken from
 * @param heldOut for each score, how well a surrogate does; empty where there is none
 */
export function sensitivityRows(
  dims: readonly string[],
  scores: readonly string[],
  indices: readonly (readonly SobolResult[])[],
  ranks: readonly (readonly RankCorrelation[])[],
  from: readonly SensitivityRow['from'][],
  heldOut: readonly (HeldOutError | null)[],
): SensitivityRow[] {
  return dims.flatMap((dim, d) =>
    scores.map((score, s): SensitivityRow => {
      const { index, reason, droppedShare } = indices[d][s];
      const rank = ranks[d][s];
      const notes = [
        reason,
        rank.reason === null || rank.reason === reason ? null : `no rank correlation: ${rank.reason}`,
        droppedShare > 0 ? `${percent(droppedShare)} of the base points left out, as not computed` : null,
      ];
      return {
        dim,
        score,
        first: index?.first ?? null,
        firstLow: index?.firstLow ?? null,
        firstHigh: index?.firstHigh ?? null,
        total: index?.total ?? null,
        totalLow: index?.totalLow ?? null,
        totalHigh: index?.totalHigh ?? null,
        from: index === null ? null : from[s],
        heldOut: heldOut[s] ?? null,
        rankCorrelation: rank.value,
        reason: notes.filter((note) => note !== null).join('; '),
      };
    }),
  );
}

function percent(share: number): string {
  return share < 0.01 ? 'under 1 %' : `${Math.round(100 * share)} %`;
}
