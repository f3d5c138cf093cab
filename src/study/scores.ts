import type { Layout, Row } from './row.js';
import type { StudyTable } from './table.js';

/** One number by which candidates are compared. */
export interface Score {
  name: string;
  unit: string;
  /** Its value for a candidate; NaN where it was not computed. */
  ofRow(row: Scored): number;
  /** Its value for each of these candidates. */
  of(table: StudyTable, candidates: readonly number[]): Float64Array;
}

/** What of a row scores are read from. */
type Scored = Pick<Row, 'outcome' | 'numbers'>;

const scoreOf = (name: string, unit: string, ofRow: Score['ofRow']): Score => ({
  name,
  unit,
  ofRow,
  of: (table, candidates) =>
    Float64Array.from(candidates, (candidate) =>
      ofRow({ outcome: table.outcome(candidate), numbers: table.numbers(candidate) }),
    ),
});

/** 'works' as 1 and 0. Only a candidate that could not be scored has neither. */
export const WORKS: Score = scoreOf('works', '', ({ outcome }) =>
  outcome === 'not scored' ? Number.NaN : outcome === 'works' ? 1 : 0,
);

/** Its place among all scores. */
export const WORKS_PLACE = 0;

/** What a maker wants more of: whether it works, its desirability, its wants. */
export function wantScoresOf(layout: Layout): Score[] {
  return [
    WORKS,
    scoreOf('desirability', '', ({ numbers }) => layout.desirability(numbers)),
    ...layout.wants.map(({ name, unit }, want) =>
      scoreOf(name, unit, ({ numbers }) => layout.wantValue(numbers, want)),
    ),
  ];
}

/** All scores of a figure: those, and its limits. */
export function scoresOf(layout: Layout): Score[] {
  return [
    ...wantScoresOf(layout),
    ...layout.limits.map(({ name, unit }, limit) =>
      scoreOf(name, unit, ({ numbers }) => layout.limitValue(numbers, limit)),
    ),
  ];
}

/** All scores of one row, in the order of `scoresOf`; NaN where not computed. */
export const scoresOfRow = (layout: Layout, row: Scored): Float64Array =>
  Float64Array.from(scoresOf(layout), (score) => score.ofRow(row));
