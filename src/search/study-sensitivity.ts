import { type RankCorrelation, rankCorrelation } from './sensitivity/rank-correlation.js';
import { type SensitivityRow, sensitivityRows } from './sensitivity/sensitivity.js';
import type { SobolResult } from './sensitivity/sobol-indices.js';
import type { Layout } from './study-row.js';
import { scoresOf } from './study-scores.js';
import type { StudyTable } from './study-table.js';

/** One free dim of a study, as tables and charts need it. */
export interface StudyDim {
  name: string;
  unit: string;
  /** What the options of a choice are called; null for a dim that is a range. */
  options: readonly (string | number)[] | null;
}

const NO_ORDER: RankCorrelation = { value: null, reason: 'its options have no order' };
const NOT_MEASURED: SobolResult = { index: null, reason: null, droppedShare: 0 };

/**
 * How each dim drives each score, over candidates that were spread evenly through the ranges: those that a search has
 * picked would tell what it likes, not what the dims do.
 * @param indices Sobol indices where they were measured: [dim][score]
 */
export function sensitivityOf(
  table: StudyTable,
  candidates: readonly number[],
  dims: readonly StudyDim[],
  layout: Layout,
  indices: readonly (readonly SobolResult[])[] = dims.map(() => scoresOf(layout).map(() => NOT_MEASURED)),
): SensitivityRow[] {
  const scores = scoresOf(layout);
  const columns = scores.map((score) => score.of(table, candidates));
  const ranks = dims.map((dim, place) => {
    const values = valuesOf(dim, place, table, candidates);
    return columns.map((column) => (values === null ? NO_ORDER : rankCorrelation(values, column)));
  });
  return sensitivityRows(
    dims.map(({ name }) => name),
    scores.map(({ name }) => name),
    indices,
    ranks,
  );
}

/** The values of a dim in an order that means something; null for a choice between three words or more. */
function valuesOf(
  { options }: StudyDim,
  place: number,
  table: StudyTable,
  candidates: readonly number[],
): Float64Array | null {
  const values = Float64Array.from(candidates, (candidate) => table.vector(candidate)[place]);
  if (options === null || options.length <= 2) return values;
  const numbers = options.map(Number);
  return options.every((option) => typeof option === 'number')
    ? values.map((option) => numbers[option])
    : null;
}
