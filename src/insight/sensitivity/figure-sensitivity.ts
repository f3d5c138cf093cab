import { stream } from '../../search/random.js';
import type { ScoredPoint, ScoreSurrogate } from '../surrogate-scores.js';
import { surrogateIndices } from './by-surrogate.js';
import { type GlobalRuns, LEAST_LEARNT, pointsIn } from './global-runs.js';
import type { SobolResult } from './sobol-indices.js';
import { varies } from './varies.js';

export interface GlobalSensitivity {
  /** [dim][score] */
  readonly indices: readonly (readonly SobolResult[])[];
  /** For each score, what its indices were taken from; null where it has none. */
  readonly from: readonly ('scoring' | 'surrogate' | null)[];
  readonly note: string;
}

/**
 * Which scores a surrogate might tell more of: they vary, and no dim has an index. Empty where there are too few plain
 * dummies to learn from.
 */
export function scoresToLearn(indices: GlobalRuns['indices'], points: readonly ScoredPoint[]): number[] {
  const plain = points.filter((point) => point.plain);
  if (plain.length < LEAST_LEARNT) return [];
  return Array.from({ length: plain[0].scores.length }, (_, score) => score).filter(
    (score) =>
      indices.every((byScore) => byScore[score].index === null) &&
      varies(plain.map(({ scores }) => scores[score])),
  );
}

/** Indices from true scoring, and those of a surrogate where there are none. */
export async function withSurrogate(
  { indices, note }: GlobalRuns,
  surrogate: ScoreSurrogate | null,
  wanted: readonly number[],
  seed: number,
): Promise<GlobalSensitivity> {
  const dims = indices.length;
  const measured =
    surrogate === null
      ? []
      : await surrogateIndices(
          surrogate,
          wanted,
          dims,
          pointsIn(2 * dims, seed),
          stream(seed, 'bootstrap of the surrogate'),
        );
  const filled = indices.map((byScore, dim) =>
    byScore.map((result, score) => {
      const k = surrogate === null ? -1 : wanted.indexOf(score);
      if (k < 0) return result;
      const said = measured[dim][k];
      return said.index === null ? { ...said, reason: `${result.reason}; ${said.reason}` } : said;
    }),
  );
  const from = Array.from({ length: indices[0]?.length ?? 0 }, (_, score) =>
    filled.every((byScore) => byScore[score].index === null)
      ? null
      : surrogate !== null && wanted.includes(score)
        ? 'surrogate'
        : 'scoring',
  );
  const learnt = surrogate !== null && from.includes('surrogate') && !from.includes('scoring');
  return {
    indices: filled,
    from,
    note: learnt
      ? `From a surrogate that has learnt ${surrogate.learnt.toLocaleString('en')} dummies, since true scoring would take more runs.`
      : note,
  };
}
