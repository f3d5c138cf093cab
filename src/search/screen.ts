import type { Candidate } from './archive.js';
import type { Scored } from './evaluator.js';
import type { Surrogate } from './surrogate.js';
import { survivors } from './survival.js';

/** Share of a batch that goes unscreened, so that the search also scores what the surrogate thinks little of. */
const UNSCREENED = 0.15;
/** A candidate counts as sound from these odds on: the best designs lie near a limit, where odds are even. */
const SOUND = 0.3;
/** How much better than expected a candidate is taken to be, for each unit by which the networks disagree. */
const HOPE = 0.5;

/**
 * Picks from a pool of points those that look worth scoring: the ones that would survive among the present population if
 * the surrogate were right, taken a little better where its networks disagree, since there is most to learn.
 *
 * @param pool more points than wanted, in the order in which they were made
 * @returns `count` of them, or all
 */
export function screened(
  surrogate: Pick<Surrogate, 'expect'>,
  population: readonly Candidate[],
  pool: readonly Float64Array[],
  count: number,
): Float64Array[] {
  const hopes = hopesOf(surrogate, pool);
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
function hopesOf(surrogate: Pick<Surrogate, 'expect'>, pool: readonly Float64Array[]): Scored[] {
  const expected = surrogate.expect(pool);
  return pool.map((_, i) => ({
    objectives: expected.objectives[i].map((value, j) => value - HOPE * expected.spread[i][j]),
    violation: expected.sound[i] >= SOUND ? 0 : SOUND - expected.sound[i] + expected.violation[i],
  }));
}
