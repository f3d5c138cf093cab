import type { Layout } from './row.js';
import type { StudyTable } from './table.js';

/**
 * A limit or a want, and how many of the candidates that could be built do not meet it. A limit that could not be looked
 * at, since the figure locks before, is not counted: 'shuts' is, which says so. Neither is one that was not looked at, since
 * the candidate fails already.
 */
export interface Failure {
  name: string;
  isLimit: boolean;
  count: number;
}

/** How the candidates came out, and what they fail of, the most frequent first. */
export interface Tally {
  works: number;
  fails: number;
  notBuilt: number;
  notScored: number;
  /** Of those that fail, how many were looked at in short only. */
  inShort: number;
  failures: Failure[];
}

export function tally(table: StudyTable, layout: Layout, candidates: readonly number[]): Tally {
  const named = [...layout.limits.map(({ name }) => name), ...layout.wants.map(({ name }) => name)];
  const counts = new Float64Array(named.length);
  const outcomes = { works: 0, fails: 0, 'not built': 0, 'not scored': 0 };
  let inShort = 0;
  for (const candidate of candidates) {
    const outcome = table.outcome(candidate);
    outcomes[outcome]++;
    if (outcome !== 'fails') continue;
    const met = table.met(candidate);
    const numbers = table.numbers(candidate);
    if (Number.isNaN(layout.violation(numbers))) inShort++;
    // In a row the wants stand first; here a limit goes before a want that fails as often.
    for (const limit of layout.limits.keys())
      if (!Number.isNaN(layout.limitValue(numbers, limit)))
        counts[limit] += 1 - met[layout.wants.length + limit];
    for (const want of layout.wants.keys()) counts[layout.limits.length + want] += 1 - met[want];
  }
  const failures = named
    .map((name, i) => ({ name, isLimit: i < layout.limits.length, count: counts[i] }))
    .filter(({ count }) => count > 0)
    .sort((a, b) => b.count - a.count);
  return {
    works: outcomes.works,
    fails: outcomes.fails,
    notBuilt: outcomes['not built'],
    notScored: outcomes['not scored'],
    inShort,
    failures,
  };
}
