import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apart, distinct } from '../../src/search/niche.js';
import { Space } from '../../src/search/variables.js';
import { real } from '../support/search-problems.js';

const space = new Space([
  real('long', 0, 100),
  real('wide', 10, 20),
  { name: 'way', kind: 'choice', options: 3 },
]);

describe('how far designs are apart', () => {
  const between = (a: number[], b: number[]) => apart(space, space.toUnit(a), space.toUnit(b));

  it('by hand', () => {
    // Half of one range, all of another, and another option: (1/4 + 1 + 1) / 3.
    expect(between([0, 10, 0], [50, 20, 2])).toBeCloseTo(Math.sqrt(2.25 / 3), 9);
    expect(between([7, 12, 1], [7, 12, 1])).toBe(0);
  });

  it('one option is as far from the next as from any', () => {
    expect(between([0, 10, 0], [0, 10, 1])).toBe(between([0, 10, 0], [0, 10, 2]));
  });
});

describe('good and different', () => {
  it('takes the best of each cluster before the second of any', () => {
    // Three clusters, best first: two of the first cluster lead.
    const values = [
      [10, 11, 0],
      [10.5, 11, 0],
      [90, 19, 0],
      [90, 18.8, 0],
      [10, 11, 1],
      [11, 11, 1],
    ];
    expect(distinct(space, values, 3)).toEqual([0, 2, 4]);
    // With more wanted than there are clusters, the distance is halved until enough are found.
    expect(distinct(space, values, 4)).toEqual([0, 2, 4, 3]);
    // Halved, not thrown away: at 0.1 the one that is 25 of 100 mm longer comes before the one that is 6 mm longer.
    const longer = [0, 6, 25].map((by) => [10 + by, 11, 0]);
    expect(distinct(space, longer, 2)).toEqual([0, 2]);
  });

  it('never takes copies, and gives fewer rather', () => {
    const copies = [
      [10, 11, 0],
      [10, 11, 0],
      [10, 11, 0],
    ];
    expect(distinct(space, copies, 3)).toEqual([0]);
    expect(distinct(space, [], 3)).toEqual([]);
    expect(distinct(space, copies, 0)).toEqual([]);
  });

  it('always starts with the best, and keeps the distance while it can', () => {
    const value = fc.tuple(
      fc.integer({ min: 0, max: 100 }),
      fc.integer({ min: 10, max: 20 }),
      fc.integer({ min: 0, max: 2 }),
    );
    fc.assert(
      fc.property(
        fc.array(value, { minLength: 1, maxLength: 40 }),
        fc.integer({ min: 1, max: 10 }),
        (values, count) => {
          const taken = distinct(space, values, count, 0.2);
          expect(taken[0]).toBe(0);
          expect(new Set(taken).size).toBe(taken.length);
          const units = taken.map((i) => space.toUnit(values[i]));
          // Whoever is left out is near to one that was taken, or enough were taken.
          if (taken.length < count) {
            for (const v of values)
              expect(Math.min(...units.map((u) => apart(space, u, space.toUnit(v))))).toBeLessThan(0.0032);
          }
        },
      ),
    );
  });
});
