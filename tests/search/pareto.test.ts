import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Scored } from '../../src/search/evaluator.js';
import { crowding, frontOf, objectiveRange, sortIntoFronts } from '../../src/search/pareto.js';
import { stream } from '../../src/search/random.js';

const scored = (objectives: number[], violation = 0): Scored => ({
  objectives: Float64Array.from(objectives),
  violation,
});

/** Constraint domination as Deb et al. 2002, section VI, define it, word for word. */
function beats(a: Scored, b: Scored): boolean {
  const objective = (s: Scored) => Array.from(s.objectives, (o) => (Number.isNaN(o) ? Infinity : o));
  const [va, vb] = [a, b].map(({ violation }) => (Number.isNaN(violation) ? Infinity : violation));
  if (va === 0 && vb > 0) return true;
  if (va > 0 && vb > 0) return va < vb;
  if (va > 0) return false;
  const [p, q] = [objective(a), objective(b)];
  return p.every((value, j) => value <= q[j]) && p.some((value, j) => value < q[j]);
}

/** Fronts by peeling: whoever no one left beats is the next front. */
function peeled(all: readonly Scored[]): number[] {
  const ranks = new Array<number>(all.length).fill(-1);
  for (let rank = 0; ranks.includes(-1); rank++) {
    const left = all.map((_, i) => i).filter((i) => ranks[i] === -1);
    for (const i of left.filter((i) => !left.some((k) => beats(all[k], all[i])))) ranks[i] = rank;
  }
  return ranks;
}

const anyScored = (width: number) =>
  fc
    .tuple(
      fc.array(
        fc.oneof(
          { weight: 9, arbitrary: fc.integer({ min: 0, max: 4 }) },
          { weight: 1, arbitrary: fc.constant(NaN) },
        ),
        { minLength: width, maxLength: width },
      ),
      fc.constantFrom(0, 0, 0, 1, 2, 2, Infinity, NaN),
    )
    .map(([objectives, violation]) => scored(objectives, violation));
const anySet = fc.integer({ min: 1, max: 5 }).chain((width) => fc.array(anyScored(width), { maxLength: 40 }));

describe('fronts', () => {
  it('are those of peeling, with ties, violations and what was not computed', () => {
    fc.assert(
      fc.property(anySet, (all) => {
        const ranks = Array.from(sortIntoFronts(all));
        expect(ranks).toEqual(peeled(all));
        expect(frontOf(all)).toEqual(
          ranks.flatMap((rank, i) => (rank === 0 && all[i].violation === 0 ? [i] : [])),
        );
      }),
      { numRuns: 300 },
    );
  });

  it('of a hand-drawn set', () => {
    // In a grid: 0 and 1 lie on the front, 2 behind 0, 3 behind both, 4 equals 0; 5 and 6 break limits.
    const all = [
      [1, 4],
      [3, 1],
      [2, 5],
      [4, 5],
      [1, 4],
    ]
      .map((o) => scored(o))
      .concat(scored([0, 0], 2), scored([9, 9], 1));
    expect(Array.from(sortIntoFronts(all))).toEqual([0, 0, 1, 2, 0, 4, 3]);
    expect(frontOf(all)).toEqual([0, 1, 4]);
  });

  it('of nobody', () => {
    expect(sortIntoFronts([])).toHaveLength(0);
    expect(frontOf([scored([1, 2], 3)])).toEqual([]);
  });

  it('of 10,000 candidates with four objectives: each is beaten by one of the front before', () => {
    const random = stream(1, 'many');
    const all = Array.from({ length: 10000 }, () => scored([0, 1, 2, 3].map(() => random.next())));
    const ranks = sortIntoFronts(all);
    const fronts: number[][] = [];
    ranks.forEach((rank, i) => {
      fronts[rank] ??= [];
      fronts[rank].push(i);
    });
    for (let i = 0; i < all.length; i += 499) {
      if (ranks[i] > 0) expect(fronts[ranks[i] - 1].some((k) => beats(all[k], all[i]))).toBe(true);
      expect(fronts[ranks[i]].some((k) => beats(all[k], all[i]))).toBe(false);
    }
    expect(frontOf(all)).toEqual(fronts[0]);
  });
});

describe('crowding distance', () => {
  it('by hand', () => {
    // Range 10 in both. Ends are endless; the middle ones have neighbours (0,10)-(6,3) and (2,5)-(10,0).
    const all = [scored([6, 3]), scored([0, 10]), scored([2, 5]), scored([10, 0])];
    expect(Array.from(crowding(all, [0, 1, 2, 3]))).toEqual([
      8 / 10 + 5 / 10,
      Infinity,
      6 / 10 + 7 / 10,
      Infinity,
    ]);
  });

  it('of a front that lies in one point', () => {
    const all = [scored([1, 1]), scored([1, 1]), scored([1, 1])];
    expect(Array.from(crowding(all, [0, 1, 2]))).toEqual([Infinity, 0, Infinity]);
  });

  it('is a number also where some objectives were not computed', () => {
    const all = [
      [1, NaN],
      [2, NaN],
      [3, NaN],
      [4, 1],
      [5, 0],
    ].map((o) => scored(o));
    for (const distance of crowding(all, [0, 1, 2, 3, 4])) expect(distance).toBeGreaterThanOrEqual(0);
  });
});

it('the range of objectives leaves out what was not computed', () => {
  const all = [scored([1, NaN, 5]), scored([3, NaN, Infinity])];
  const { low, high } = objectiveRange(all, [0, 1]);
  expect([Array.from(low), Array.from(high)]).toEqual([
    [1, 0, 5],
    [3, 1, 5],
  ]);
});
