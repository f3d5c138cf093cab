import type { Candidate } from './archive.js';
import type { Scored } from './evaluator.js';
import type { Foresight } from './expected.js';
import { survivors } from './survival.js';

/** Share of a batch that goes unscreened, so that the search also scores what little is expected of. */
const UNSCREENED = 0.15;
/** How much better than expected a candidate is taken to be, for each unit by which the networks disagree. */
const HOPE = 0.5;

/**
 * Picks from a pool of points those that look worth scoring: the ones that would survive among the present population if
 * what is expected of them came true, taken a little better where networks disagree, since there is most to learn.
 *
 * @param pool more points than wanted, in the order in which they were made
 * @returns `count` of them, or all
 */
export function screened(
  foresight: Foresight,
  population: readonly Candidate[],
  pool: readonly Float64Array[],
  count: number,
): Float64Array[] {
  const hopes = hopesOf(foresight, pool);
  const picked = new Set<number>();
  const pick = (indices: Iterable<number>, upTo: number) => {
    for (const i of indices) if (picked.size < upTo) picked.add(i);
  };
  const byChoice = Math.min(pool.length, count) - Math.round(count * UNSCREENED);
  const old = population.map((c) => c.scored);
  const among = survivors([...old, ...hopes], old.length + count);
  pick(
    among.filter((i) => i >= old.length).map((i) => i - old.length),
    byChoice,
  );
  if (picked.size < byChoice) pick(survivors(hopes, hopes.length), byChoice);
  pick(pool.keys(), Math.min(pool.length, count));
  return [...picked].map((i) => pool[i]);
}

/** What the pool would score, seen hopefully; only for choosing among it. */
function hopesOf(foresight: Foresight, pool: readonly Float64Array[]): Scored[] {
  const expected = foresight.expect(pool);
  const { soundFrom } = foresight;
  return pool.map((_, i) => ({
    objectives: expected.objectives[i].map((value, j) => value - HOPE * expected.spread[i][j]),
    violation: expected.sound[i] >= soundFrom ? 0 : soundFrom - expected.sound[i] + expected.violation[i],
  }));
}
