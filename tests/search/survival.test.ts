import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Scored } from '../../src/search/evaluator.js';
import { sortIntoFronts } from '../../src/search/pareto.js';
import { survivors, thinned } from '../../src/search/survival.js';

const scored = (objectives: number[], violation = 0): Scored => ({
  objectives: Float64Array.from(objectives),
  violation,
});

describe('thinning a front', () => {
  it('drops the most crowded first, by hand', () => {
    // On the line x + y = 10, at x = 0, 1, 1.5, 4, 10: the pair 1 and 1.5 is nearest, and 1 is nearer to its next (0).
    const all = [0, 1, 1.5, 4, 10].map((x) => scored([x, 10 - x]));
    expect(thinned(all, [0, 1, 2, 3, 4], 4)).toEqual([0, 2, 3, 4]);
    // Then 0 and 1.5 are nearest, but 0 is the best in x: 1.5 goes.
    expect(thinned(all, [0, 1, 2, 3, 4], 3)).toEqual([0, 3, 4]);
    expect(thinned(all, [0, 1, 2, 3, 4], 2)).toEqual([0, 4]);
    expect(thinned(all, [0, 1, 2, 3, 4], 1)).toEqual([0]);
  });

  it('measures each objective by its own range', () => {
    // The second objective in thousandths: all the same, since only shares of the range count.
    const all = [0, 1, 1.5, 4, 10].map((x) => scored([x, (10 - x) / 1000]));
    expect(thinned(all, [0, 1, 2, 3, 4], 4)).toEqual([0, 2, 3, 4]);
    // The pair at x = 4.5 and 5 is nearest in x, but lies apart by 0.7 of the other range; that at 5 and 6 by 0.1 in all, and
    // 6 is nearer to its next, (10, 0).
    const bent = [
      [0, 0.01],
      [4.5, 0.009],
      [5, 0.002],
      [6, 0.0019],
      [10, 0],
    ].map((objectives) => scored(objectives));
    expect(thinned(bent, [0, 1, 2, 3, 4], 4)).toEqual([0, 1, 2, 4]);
  });

  it('keeps the best in each objective, however crowded', () => {
    // The first three are equally near to one another, so that the last of them would go: but it is the best in the first.
    const all = [
      [1, 5, 6],
      [1, 6, 5],
      [0, 6, 6],
      [8, 0, 8],
      [8, 8, 0],
    ].map((objectives) => scored(objectives));
    expect(thinned(all, [0, 1, 2, 3, 4], 4)).toEqual([0, 2, 3, 4]);
  });

  it('of equal members keeps the first', () => {
    const all = [scored([1, 1]), scored([1, 1]), scored([1, 1])];
    expect(thinned(all, [0, 1, 2], 1)).toEqual([0]);
    expect(thinned([scored([NaN]), scored([NaN])], [0, 1], 1)).toEqual([0]);
  });
});

it('survivors are the best fronts, as many as asked for', () => {
  const anyScored = fc
    .tuple(
      fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 3, maxLength: 3 }),
      fc.constantFrom(0, 0, 1, 3),
    )
    .map(([objectives, violation]) => scored(objectives, violation));
  fc.assert(
    fc.property(fc.array(anyScored, { maxLength: 40 }), fc.integer({ min: 0, max: 45 }), (all, count) => {
      const kept = survivors(all, count);
      expect(kept).toHaveLength(Math.min(count, all.length));
      expect(new Set(kept).size).toBe(kept.length);
      const ranks = sortIntoFronts(all);
      const worst = Math.max(-1, ...kept.map((i) => ranks[i]));
      for (let i = 0; i < all.length; i++) if (ranks[i] < worst) expect(kept).toContain(i);
    }),
  );
});
