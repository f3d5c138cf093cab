import type { Layout } from './row.js';
import type { StudyTable } from './table.js';

/** One number by which candidates are compared. */
export interface Score {
  name: string;
  unit: string;
  /** Its value for each of these candidates; NaN where it was not computed. */
  of(table: StudyTable, candidates: readonly number[]): Float64Array;
}

/** 'works' as 1 and 0. Only a candidate that could not be scored has neither. */
export const WORKS: Score = {
  name: 'works',
  unit: '',
  of: (table, candidates) =>
    Float64Array.from(candidates, (candidate) => {
      const outcome = table.outcome(candidate);
      return outcome === 'not scored' ? Number.NaN : outcome === 'works' ? 1 : 0;
    }),
};

/** Its place among all scores. */
export const WORKS_PLACE = 0;

/** All scores of a figure: whether it works, its desirability, its wants and its limits. */
export function scoresOf(layout: Layout): Score[] {
  const from = (name: string, unit: string, value: (numbers: Float64Array) => number): Score => ({
    name,
    unit,
    of: (table, candidates) => Float64Array.from(candidates, (candidate) => value(table.numbers(candidate))),
  });
  return [
    WORKS,
    from('desirability', '', (numbers) => layout.desirability(numbers)),
    ...layout.wants.map(({ name, unit }, want) =>
      from(name, unit, (numbers) => layout.wantValue(numbers, want)),
    ),
    ...layout.limits.map(({ name, unit }, limit) =>
      from(name, unit, (numbers) => layout.limitValue(numbers, limit)),
    ),
  ];
}
