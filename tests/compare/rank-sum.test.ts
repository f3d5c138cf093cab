import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rankSum } from '../../src/compare/rank-sum.js';
import { type Measure, SURE, weigh } from '../../src/compare/weigh.js';
import { stream } from '../../src/search/random.js';

/** a and b so that b precedes a in `u` pairs: the least `u` of the table. */
function withU(n: number, u: number): [number[], number[]] {
  const b = Array.from({ length: n }, (_, i) => n + i);
  const a = Array.from({ length: n }, (_, i) => i);
  // Each step moves the greatest a past one more b.
  a[n - 1] = u === 0 ? n - 1 : b[u - 1] + 0.5;
  return [a, b];
}

describe('the rank-sum test', () => {
  // Mann and Whitney (1947), table I: probability of U or less, one-sided, from memory.
  it.each([
    [3, 0, 0.05],
    [3, 1, 0.1],
    [4, 0, 0.014],
    [4, 1, 0.029],
    [4, 2, 0.057],
    [5, 0, 0.004],
    [5, 1, 0.008],
    [5, 2, 0.016],
    [5, 3, 0.028],
    [5, 4, 0.048],
  ])('of %i against %i values with U = %i', (n, u, published) => {
    const [a, b] = withU(n, u);
    expect(Math.round((1000 * rankSum(a, b)) / 2) / 1000).toBe(published);
    expect(rankSum(b, a)).toBe(rankSum(a, b));
  });

  it('is 1 for samples that do not differ, and for none', () => {
    expect(rankSum([3, 3, 3], [3, 3, 3])).toBe(1);
    expect(rankSum([1, 2, 3, 4, 5], [1, 2, 3, 4, 5])).toBe(1);
    expect(rankSum([], [1, 2])).toBe(1);
  });

  it('takes infinities as least and greatest', () => {
    const worst = Array<number>(5).fill(Number.NEGATIVE_INFINITY);
    expect(rankSum(worst, [1, 2, 3, 4, 5])).toBe(rankSum([0, 0, 0, 0, 0], [1, 2, 3, 4, 5]));
  });

  it('depends on ranks alone, and lies between 0 and 1', () => {
    const sample = fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(sample, sample, (a, b) => {
        const chance = rankSum(a, b);
        expect(chance).toBeGreaterThan(0);
        expect(chance).toBeLessThanOrEqual(1);
        const stretched = (values: number[]) => values.map((value) => value ** 3 / 7 + 2);
        expect(rankSum(stretched(a), stretched(b))).toBe(chance);
      }),
      { numRuns: 60 },
    );
  });
});

const measure = (values: (number | null)[][], more: Partial<Measure> = {}): Measure => ({
  name: 'rise',
  unit: 'mm',
  better: 'more',
  values,
  matters: 0,
  nothingIsWorst: true,
  ...more,
});

describe('a winner', () => {
  it('is better with every seed, and by how much is told', () => {
    const { winner, by, medians, spans } = weigh(
      measure([
        [30, 31, 32, 33, 34],
        [20, 21, 22, 23, 24],
      ]),
    );
    expect({ winner, by, medians, spans }).toEqual({
      winner: 0,
      by: 10,
      medians: [32, 22],
      spans: [
        [30, 34],
        [20, 24],
      ],
    });
  });

  it('is the smaller one where less is better', () => {
    const values = [
      [30, 31, 32, 33, 34],
      [20, 21, 22, 23, 24],
    ];
    expect(weigh(measure(values, { better: 'less' })).winner).toBe(1);
  });

  it.each([
    [
      'two that are the same',
      [
        [1, 2, 3, 4, 5],
        [1, 2, 3, 4, 5],
      ],
    ],
    [
      'two that overlap',
      [
        [1, 2, 3, 4, 5.5],
        [5, 6, 7, 8, 9],
      ],
    ],
    [
      'four seeds, however far apart',
      [
        [1, 2, 3, 4],
        [50, 60, 70, 80],
      ],
    ],
    [
      'two of which one was not computed at all',
      [
        [null, null, null, null, null],
        [null, null, null, null, null],
      ],
    ],
  ])('there is none of %s', (_, values) => {
    expect(weigh(measure(values)).winner).toBeNull();
  });

  it('there is none of a difference that does not matter', () => {
    const values = [
      [1.001, 1.002, 1.003, 1.004, 1.005],
      [1, 1, 1, 1, 1],
    ];
    expect(weigh(measure(values, { matters: 0.1 })).winner).toBeNull();
    expect(weigh(measure(values)).winner).toBe(0);
  });

  it('of three must beat both others', () => {
    const [low, middle, high] = [
      [1, 2, 3, 4, 5],
      [11, 12, 13, 14, 15],
      [21, 22, 23, 24, 25],
    ];
    expect(weigh(measure([low, high, middle])).winner).toBe(1);
    expect(weigh(measure([low, high, [20, 22.5, 23.5, 24.5, 26]])).winner).toBeNull();
  });

  it('beats one of which nothing works, by no amount', () => {
    const values = [
      [1, 2, 3, 4, 5],
      [null, null, null, null, null],
    ];
    expect(weigh(measure(values))).toMatchObject({ winner: 0, by: null, medians: [3, null] });
    // What a dummy costs can't be weighed where there is none.
    expect(weigh(measure(values, { nothingIsWorst: false, better: 'less' })).winner).toBeNull();
  });

  it('is wrong in one comparison of a hundred at most: samples of the same kind', () => {
    const random = stream(11, 'null');
    const draw = () => Array.from({ length: 5 }, () => random.normal());
    let wins = 0;
    const times = 4000;
    for (let i = 0; i < times; i++) if (weigh(measure([draw(), draw()])).winner !== null) wins++;
    // 2 of 252 splits separate five from five wholly: 0.8 %, give or take 0.4 % (three deviations).
    expect(wins / times).toBeLessThanOrEqual(SURE + 0.004);
    expect(wins / times).toBeGreaterThan(0.004);
  });
});
