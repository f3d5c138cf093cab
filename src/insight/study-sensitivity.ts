import type { Layout } from '../study/row.js';
import { scoresOf } from '../study/scores.js';
import type { StudyTable } from '../study/table.js';
import { type RankCorrelation, rankCorrelation } from './sensitivity/rank-correlation.js';
import { type SensitivityRow, sensitivityRows } from './sensitivity/sensitivity.js';
import type { SobolResult } from './sensitivity/sobol-indices.js';
import type { StudyInsight } from './study-insight.js';

/** One free dim of a study, as tables and charts need it. */
export interface StudyDim {
  name: string;
  unit: string;
  /** What the options of a choice are called; null for a dim that is a range. */
  options: readonly (string | number)[] | null;
}

/** Candidates spread evenly through the ranges: those that a search has picked would tell what it likes. */
export interface PlainSample {
  readonly size: number;
  /** For each dim its value in every candidate; of a choice, the option's place. */
  readonly dims: readonly Float64Array[];
  /** For each score, as in `scoresOf`, its value in every candidate; NaN where not computed. */
  readonly scores: readonly Float64Array[];
}

/**
 * Plain samples as columns of numbers.
 * @param candidates of the study
 * @param more those that were scored for the indices
 */
export function plainSample(
  table: StudyTable,
  candidates: readonly number[],
  layout: Layout,
  more: StudyInsight['plain'] = [],
): PlainSample {
  const join = (own: ArrayLike<number>, others: (number | null)[]) =>
    Float64Array.from([...Array.from(own), ...others.map((value) => value ?? Number.NaN)]);
  return {
    size: candidates.length + more.length,
    dims: Array.from({ length: table.dims }, (_, dim) =>
      join(
        candidates.map((candidate) => table.vector(candidate)[dim]),
        more.map(({ vector }) => vector[dim]),
      ),
    ),
    scores: scoresOf(layout).map((score, s) =>
      join(
        score.of(table, candidates),
        more.map(({ scores }) => scores[s]),
      ),
    ),
  };
}

const NO_ORDER: RankCorrelation = { value: null, reason: 'its options have no order' };
const NOT_MEASURED: SobolResult = { index: null, reason: null, droppedShare: 0 };

/**
 * How each dim drives each score: the trends over plain samples, and Sobol indices where they were measured.
 * @param insight null where nothing was measured
 */
export function sensitivityOf(
  sample: PlainSample,
  dims: readonly StudyDim[],
  layout: Layout,
  insight: Pick<StudyInsight, 'global' | 'surrogate'> | null = null,
): SensitivityRow[] {
  const scores = scoresOf(layout);
  const ranks = dims.map((dim, place) => {
    const values = inOrder(dim, sample.dims[place]);
    return sample.scores.map((column) => (values === null ? NO_ORDER : rankCorrelation(values, column)));
  });
  return sensitivityRows(
    dims.map(({ name }) => name),
    scores.map(({ name }) => name),
    insight?.global.indices ?? dims.map(() => scores.map(() => NOT_MEASURED)),
    ranks,
    insight?.global.from ?? scores.map(() => null),
    insight?.surrogate?.heldOut ?? [],
  );
}

/** The values of a dim in an order that means something; null for a choice between three words or more. */
function inOrder({ options }: StudyDim, values: Float64Array): Float64Array | null {
  if (options === null || options.length <= 2) return values;
  const numbers = options.map(Number);
  return options.every((option) => typeof option === 'number')
    ? values.map((option) => numbers[option])
    : null;
}
