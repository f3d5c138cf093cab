import { expect, it } from 'vitest';
import { rank } from '../../src/search/rank.js';

type Candidate = { works: boolean; violation: number; desirability: number; objectives: number[] };

const candidate = (works: boolean, violation: number, desirability: number, ...objectives: number[]) => ({
  works,
  violation,
  desirability,
  objectives,
});

const ranked = (candidates: readonly Candidate[]) =>
  rank({
    works: Uint8Array.from(candidates, ({ works }) => (works ? 1 : 0)),
    violation: Float64Array.from(candidates, ({ violation }) => violation),
    desirability: Float64Array.from(candidates, ({ desirability }) => desirability),
    objectives: Float64Array.from(candidates.flatMap(({ objectives }) => objectives)),
  });

it('ranks what works first, then what misses a want, then what breaks a limit, by how far', () => {
  const order = ranked([
    candidate(false, 2, 0.9, 0, 0),
    candidate(false, 0, 0.9, 0, 0.1),
    candidate(true, 0, 0.2, 0.6, 0.6),
    candidate(false, 0.5, 0, 1, 1),
    candidate(false, Number.POSITIVE_INFINITY, 0, 1, 1),
    candidate(false, Number.POSITIVE_INFINITY, 0, 1, 1),
  ]);
  expect(order).toEqual([2, 1, 3, 0, 4, 5]);
});

it('puts a candidate that another beats in every want behind it, and equals in the order of their numbers', () => {
  const order = ranked([
    candidate(true, 0, 0.5, 0.5, 0.5),
    candidate(true, 0, 0.7, 0.2, 0.4),
    candidate(true, 0, 0.6, 0.4, 0.2),
    candidate(true, 0, 0.7, 0.2, 0.4),
  ]);
  expect(order).toEqual([1, 3, 2, 0]);
});

it('ranks what has no want by desirability alone, and nothing as nothing', () => {
  expect(ranked([candidate(true, 0, 0.5), candidate(true, 0, 0.7)])).toEqual([1, 0]);
  expect(ranked([])).toEqual([]);
});
