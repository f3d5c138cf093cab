import { type Rankable, rank } from './rank.js';
import { scoredOf } from './study.js';
import type { Layout } from './study-row.js';
import type { StudyTable } from './study-table.js';

/** All candidates of a study as ranking sees them, and their places, best first. */
export function rankedStudy(
  table: StudyTable,
  layout: Layout,
): { scored: readonly Rankable[]; ranking: readonly number[] } {
  const scored = table
    .where(() => true)
    .map((candidate) => ({
      ...scoredOf(layout, table, candidate),
      works: table.outcome(candidate) === 'works',
      desirability: layout.desirability(table.figures(candidate)) || 0,
    }));
  return { scored, ranking: rank(scored) };
}

/**
 * The ranking with robustness in it: those at its top that were cut by hand come in the order of desirability times the
 * share of their dummies that still work, the rest as before. Ties keep their order.
 */
export function rankedByHand(
  ranking: readonly number[],
  desirability: (candidate: number) => number,
  robust: readonly { candidate: number; works: { share: number } }[],
): number[] {
  const worth = new Map(
    robust.map(({ candidate, works }) => [candidate, desirability(candidate) * works.share]),
  );
  const cut = ranking.filter((candidate) => worth.has(candidate));
  const order = cut.toSorted((a, b) => (worth.get(b) ?? 0) - (worth.get(a) ?? 0));
  return [...order, ...ranking.filter((candidate) => !worth.has(candidate))];
}
