import { rank } from './rank.js';
import { scoredOf } from './study.js';
import type { Layout } from './study-row.js';
import type { StudyTable } from './study-table.js';

/**
 * All candidates of a study, best first, as `rank` orders them. Of a long study most break a limit; the order among those
 * is by numbers alone, so that only the others need be held as objects, all at once.
 */
export function rankedStudy(table: StudyTable, layout: Layout): number[] {
  const violation = Float64Array.from({ length: table.size }, (_, candidate) => {
    const known = table.outcome(candidate) === 'works' || table.outcome(candidate) === 'fails';
    return known ? layout.violation(table.figures(candidate)) : Number.POSITIVE_INFINITY;
  });
  const desirability = (candidate: number) => layout.desirability(table.figures(candidate)) || 0;
  const sound = table.where((candidate) => violation[candidate] === 0);
  const ranked = rank(
    sound.map((candidate) => ({
      works: table.outcome(candidate) === 'works',
      violation: 0,
      desirability: desirability(candidate),
      objectives: scoredOf(layout, table, candidate).objectives,
    })),
  );
  const broken = table.where((candidate) => violation[candidate] !== 0);
  broken.sort(
    (a, b) =>
      (violation[a] === violation[b] ? 0 : violation[a] - violation[b]) ||
      desirability(b) - desirability(a) ||
      a - b,
  );
  return ranked.map((place) => sound[place]).concat(broken);
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
