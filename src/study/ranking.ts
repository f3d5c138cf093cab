import { rowFront } from '../search/pareto.js';
import { rank } from '../search/rank.js';
import type { Layout } from './row.js';
import type { StudyTable } from './table.js';

/** All candidates of a study, best first, as `rank` orders them. */
export function rankedStudy(table: StudyTable, layout: Layout): number[] {
  const { size } = table;
  const width = layout.wants.length;
  const works = new Uint8Array(size);
  const violation = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
  const desirability = new Float64Array(size);
  const objectives = new Float64Array(size * width).fill(Number.POSITIVE_INFINITY);
  for (let candidate = 0; candidate < size; candidate++) {
    const outcome = table.outcome(candidate);
    if (outcome !== 'works' && outcome !== 'fails') continue;
    const numbers = table.numbers(candidate);
    works[candidate] = outcome === 'works' ? 1 : 0;
    const beyond = layout.violation(numbers);
    // Of what was scored in short it is not known: it comes last, with what could not be built.
    if (!Number.isNaN(beyond)) violation[candidate] = beyond;
    desirability[candidate] = layout.desirability(numbers) || 0;
    for (let want = 0; want < width; want++) {
      const worth = layout.wantDesirability(numbers, want);
      if (!Number.isNaN(worth)) objectives[candidate * width + want] = 1 - worth;
    }
  }
  return rank({ works, violation, desirability, objectives });
}

/**
 * The ranking with robustness in it: those at its top that were cut by hand come in the order of the desirability to be
 * expected of their dummies, the rest as before. Ties keep their order.
 * @param robust what is expected; in a study from before that was known, desirability times the share that works
 */
export function rankedByHand(
  ranking: readonly number[],
  desirability: (candidate: number) => number,
  robust: readonly { candidate: number; works: { share: number }; expected?: number }[],
): number[] {
  const worth = new Map(
    robust.map(({ candidate, works, expected }) => [
      candidate,
      expected ?? desirability(candidate) * works.share,
    ]),
  );
  const cut = ranking.filter((candidate) => worth.has(candidate));
  const order = ranking.slice();
  let place = cut.length;
  for (const candidate of ranking) if (!worth.has(candidate)) order[place++] = candidate;
  cut.sort((a, b) => (worth.get(b) ?? 0) - (worth.get(a) ?? 0));
  for (const [i, candidate] of cut.entries()) order[i] = candidate;
  return order;
}

/** How many working candidates no other one beats. */
export function frontSize(table: StudyTable, layout: Layout): number {
  const working = table.where((candidate) => table.outcome(candidate) === 'works');
  const width = layout.wants.length;
  // Of a long study there may be a million: in one array, not an object each.
  const objectives = new Float64Array(working.length * width);
  working.forEach((candidate, row) => {
    const numbers = table.numbers(candidate);
    for (let want = 0; want < width; want++)
      objectives[row * width + want] = 1 - layout.wantDesirability(numbers, want);
  });
  return rowFront(objectives, width, working.length).length;
}
