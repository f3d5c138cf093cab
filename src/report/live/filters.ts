import { GRADES, type Grade } from '../../card/grade.js';
import { OUTCOMES } from '../../study/row.js';
import type { Column } from './columns.js';
import type { Candidates } from './data.js';

/** Bounds on a column's values, both ends in; for a choice, the places of the options that may stay. */
export type Bounds =
  | { readonly low: number; readonly high: number }
  | { readonly options: ReadonlySet<number> };

/** What candidates must be like to be shown. */
export interface Filters {
  readonly worksOnly: boolean;
  /** Only those whose page turns so; null for any. */
  readonly grade: Grade | null;
  /** A place in `met`: only candidates that were built and do not meet this want or limit; null for any. */
  readonly failsAt: number | null;
  /** By place of the column. */
  readonly bounds: ReadonlyMap<number, Bounds>;
}

export const NO_FILTERS: Filters = { worksOnly: false, grade: null, failsAt: null, bounds: new Map() };

/** The places of the candidates that pass, best first. What was not computed passes no bounds. */
export function passing(candidates: Candidates, columns: readonly Column[], filters: Filters): number[] {
  const width = candidates.met.length / Math.max(1, candidates.count);
  const tests = [...filters.bounds].map(([place, bounds]) => testOf(columns[place], bounds));
  const places: number[] = [];
  for (let row = 0; row < candidates.count; row++) {
    const outcome = OUTCOMES[candidates.outcome[row]];
    if (filters.worksOnly && outcome !== 'works') continue;
    if (filters.grade !== null && GRADES[candidates.grade[row]] !== filters.grade) continue;
    if (
      filters.failsAt !== null &&
      (outcome !== 'fails' || candidates.met[row * width + filters.failsAt] === 1)
    )
      continue;
    if (tests.every((test) => test(row))) places.push(row);
  }
  return places;
}

function testOf({ values }: Column, bounds: Bounds): (row: number) => boolean {
  if ('options' in bounds) return (row) => bounds.options.has(values[row]);
  const { low, high } = bounds;
  return (row) => values[row] >= low && values[row] <= high;
}

/** Filters for what works only, or no longer: what works fails at nothing. */
export const forWorking = (filters: Filters, worksOnly: boolean): Filters => ({
  ...filters,
  worksOnly,
  failsAt: worksOnly ? null : filters.failsAt,
});

/** Filters for what fails at one thing, which does not work; null for whatever it fails at. */
export const forFailing = (filters: Filters, failsAt: number | null): Filters => ({
  ...filters,
  failsAt,
  worksOnly: failsAt === null && filters.worksOnly,
});

/** Filters with the bounds of one column put in place of those before; null takes them off. */
export function withBounds(filters: Filters, column: number, bounds: Bounds | null): Filters {
  const changed = new Map(filters.bounds);
  if (bounds === null) changed.delete(column);
  else changed.set(column, bounds);
  return { ...filters, bounds: changed };
}
