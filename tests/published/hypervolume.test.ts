/**
 * Hypervolume against sets worked out by hand, inclusion and exclusion over all subsets of boxes, and closed forms. Method:
 * L. While, L. Bradstreet, L. Barone, IEEE Transactions on Evolutionary Computation 16(1), 2012; the measure itself:
 * E. Zitzler, L. Thiele, PPSN V, 1998.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hypervolume } from '../../src/search/hypervolume.js';

describe('by hand', () => {
  it('in two dimensions: three steps of a staircase', () => {
    // Columns of heights 1, 2 and 3 under (4,4): 1*1 + 1*2 + 1*3 = 6.
    expect(
      hypervolume(
        [
          [1, 3],
          [2, 2],
          [3, 1],
        ],
        [4, 4],
      ),
    ).toBe(6);
    // A dominated point, a double and one beyond the reference add nothing.
    expect(
      hypervolume(
        [
          [2, 2],
          [3, 3],
          [2, 2],
          [1, 3],
          [0, 5],
          [3, 1],
        ],
        [4, 4],
      ),
    ).toBe(6);
  });

  it('in three dimensions: two boxes that share a cube', () => {
    // Boxes 1 x 2 x 3 and 3 x 2 x 1 from the reference, sharing 1 x 2 x 1: 6 + 6 - 2 = 10.
    expect(
      hypervolume(
        [
          [2, 1, 0],
          [0, 1, 2],
        ],
        [3, 3, 3],
      ),
    ).toBe(10);
    // Three slabs through one corner: 3 * 4 - 3 * 2 + 1... each 2 x 2 x 1 from (2,2,2): pairs share 2 x 1 x 1, all 1.
    expect(
      hypervolume(
        [
          [0, 0, 1],
          [0, 1, 0],
          [1, 0, 0],
        ],
        [2, 2, 2],
      ),
    ).toBe(3 * 4 - 3 * 2 + 1);
  });

  it('in four and five dimensions: slabs again', () => {
    // Slab i is 1 thick in objective i and 2 wide elsewhere. By inclusion and exclusion, k slabs share 2^(m-k):
    // the sum of (-1)^(k+1) C(m,k) 2^(m-k) is 2^m - 1.
    for (const m of [4, 5]) {
      const slabs = Array.from({ length: m }, (_, i) =>
        Array.from({ length: m }, (_, j) => (i === j ? 1 : 0)),
      );
      expect(hypervolume(slabs, new Array(m).fill(2))).toBe(2 ** m - 1);
    }
  });

  it('of none, of one, of one objective', () => {
    expect(hypervolume([], [1, 1])).toBe(0);
    expect(hypervolume([[1, 0]], [1, 1])).toBe(0);
    expect(hypervolume([[0.25, 0.5, 0.5]], [1, 1, 1])).toBe(0.75 * 0.25);
    expect(hypervolume([[3], [2], [9]], [5])).toBe(3);
  });

  it('refuses a reference of another length', () => {
    expect(() => hypervolume([[1, 2, 3]], [4, 4])).toThrow(RangeError);
  });
});

it('leaves out points with an objective that was not computed', () => {
  expect(
    hypervolume(
      [
        [1, NaN],
        [2, 2],
      ],
      [4, 4],
    ),
  ).toBe(4);
});

describe('closed forms', () => {
  it('a fine staircase under ZDT1 tends to 2/3, under ZDT2 to 1/3', () => {
    const front = (curve: (x: number) => number) =>
      Array.from({ length: 4001 }, (_, i) => [i / 4000, curve(i / 4000)]);
    expect(
      hypervolume(
        front((x) => 1 - Math.sqrt(x)),
        [1, 1],
      ),
    ).toBeCloseTo(2 / 3, 3);
    expect(
      hypervolume(
        front((x) => 1 - x * x),
        [1, 1],
      ),
    ).toBeCloseTo(1 / 3, 3);
  });

  it('an eighth of a sphere leaves 1 - pi/6 of the cube', () => {
    const points: number[][] = [];
    for (let i = 0; i <= 60; i++) {
      for (let j = 0; j <= 60; j++) {
        const [a, b] = [(i / 60) * (Math.PI / 2), (j / 60) * (Math.PI / 2)];
        points.push([Math.cos(a) * Math.cos(b), Math.cos(a) * Math.sin(b), Math.sin(a)]);
      }
    }
    const value = hypervolume(points, [1, 1, 1]);
    // From below, and the missing steps are about half a mesh width thick.
    expect(value).toBeLessThan(1 - Math.PI / 6);
    expect(value).toBeGreaterThan(1 - Math.PI / 6 - (0.75 * Math.PI) / 60);
  });
});

/** Union of boxes from each point to the reference, by inclusion and exclusion over all subsets. */
function union(points: number[][], reference: number[]): number {
  let total = 0;
  for (let subset = 1; subset < 2 ** points.length; subset++) {
    const members = points.filter((_, i) => (subset >> i) & 1);
    const shared = reference.reduce(
      (v, r, j) => v * Math.max(0, r - Math.max(...members.map((p) => p[j]))),
      1,
    );
    total += members.length % 2 === 1 ? shared : -shared;
  }
  return total;
}

it('is the union of boxes, in two to five dimensions', () => {
  // Whole numbers, so that ties and doubles are frequent and sums are exact.
  const anyCase = fc
    .integer({ min: 2, max: 5 })
    .chain((m) =>
      fc
        .array(fc.array(fc.integer({ min: 0, max: 6 }), { minLength: m, maxLength: m }), { maxLength: 8 })
        .map((points) => ({ m, points })),
    );
  fc.assert(
    fc.property(anyCase, ({ m, points }) => {
      const reference = new Array<number>(m).fill(5);
      expect(hypervolume(points, reference)).toBe(union(points, reference));
    }),
    { numRuns: 500 },
  );
});

it('an objective that is the same for all only scales it', () => {
  const flat = [
    [1, 3],
    [2, 2],
    [3, 1],
  ];
  expect(
    hypervolume(
      flat.map((p) => [...p, 1]),
      [4, 4, 3],
    ),
  ).toBe(12);
  expect(
    hypervolume(
      flat.map((p) => [1, ...p, 0, 2]),
      [2, 4, 4, 2, 5],
    ),
  ).toBe(36);
});
