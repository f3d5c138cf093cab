import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { faultOf, faultOfHole } from '../../src/geometry/faults.js';
import { type Point, random, rectangle, shape, star } from './panels.js';

const board = rectangle(0, 0, 40, 30);

// Places by hand: where two straight edges meet.
describe('faultOf', () => {
  it('finds nothing wrong with sound shapes', () => {
    expect(faultOf(shape(board, rectangle(5, 5, 10, 10), rectangle(12, 5, 20, 25)))).toBeUndefined();
    expect(faultOf(shape(board.slice(0, 3)))).toBeUndefined();
    const rnd = random(4);
    for (let n = 0; n < 200; n++) {
      const outline = star(3 + Math.floor(9 * rnd()), () => 5 + 30 * rnd());
      expect(faultOf(shape(outline))).toBeUndefined();
    }
  });

  const faults: [string, Point[], Point[][], { x: number; y: number; why: RegExp }][] = [
    [
      'an outline that crosses itself',
      [
        [0, 0],
        [20, 20],
        [20, 0],
        [0, 20],
      ],
      [],
      { x: 10, y: 10, why: /meets itself/ },
    ],
    [
      'an outline that touches itself at a corner',
      [
        [0, 0],
        [20, 0],
        [20, 20],
        [10, 0],
        [0, 20],
      ],
      [],
      { x: 10, y: 0, why: /meets itself/ },
    ],
    [
      'a spike',
      [
        [0, 0],
        [20, 0],
        [20, 30],
        [20, 10],
        [0, 10],
      ],
      [],
      { x: 20, y: 30, why: /folds back/ },
    ],
    [
      'no width at all',
      [
        [0, 0],
        [20, 0],
        [5, 0],
      ],
      [],
      { x: 20, y: 0, why: /folds back/ },
    ],
    [
      'a corner twice over',
      [
        [0, 0],
        [20, 0],
        [20, 0],
        [5, 9],
      ],
      [],
      { x: 20, y: 0, why: /no length/ },
    ],
    [
      'two corners only',
      [
        [3, 4],
        [20, 0],
      ],
      [],
      { x: 3, y: 4, why: /three corners/ },
    ],
    [
      'a corner that is no number',
      [
        [3, 4],
        [20, Number.NaN],
        [0, 9],
      ],
      [],
      { x: 0, y: 0, why: /corner 2 is not a number/ },
    ],
    ['a hole over the edge', board, [rectangle(35, 10, 45, 20)], { x: 40, y: 10, why: /meets the outline/ }],
    ['a hole along the edge', board, [rectangle(0, 5, 5, 10)], { x: 0, y: 5, why: /meets the outline/ }],
    ['a hole outside', board, [rectangle(50, 10, 55, 20)], { x: 50, y: 10, why: /outside/ }],
    ['a hole around the outline', board, [rectangle(-9, -9, 99, 99)], { x: -9, y: -9, why: /outside/ }],
    [
      'holes that meet',
      board,
      [rectangle(5, 5, 15, 15), rectangle(10, 8, 20, 12)],
      { x: 15, y: 8, why: /two holes meet/ },
    ],
    [
      'a hole in a hole',
      board,
      [rectangle(5, 5, 25, 25), rectangle(8, 8, 12, 12)],
      { x: 8, y: 8, why: /in another/ },
    ],
    [
      'a hole around a hole',
      board,
      [rectangle(8, 8, 12, 12), rectangle(5, 5, 25, 25)],
      { x: 8, y: 8, why: /in another/ },
    ],
  ];
  it.each(faults)('finds %s', (_, outline, holes, expected) => {
    const fault = faultOf(shape(outline, ...holes));
    expect(fault?.why).toMatch(expected.why);
    expect(fault?.x).toBeCloseTo(expected.x, 9);
    expect(fault?.y).toBeCloseTo(expected.y, 9);
  });
});

/** On which side of the way from a to b a point of a grid lies: exact, for whole numbers. */
const side = (a: Point, b: Point, p: Point) =>
  Math.sign((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]));
const within = (a: Point, b: Point, p: Point) =>
  Math.min(a[0], b[0]) <= p[0] &&
  p[0] <= Math.max(a[0], b[0]) &&
  Math.min(a[1], b[1]) <= p[1] &&
  p[1] <= Math.max(a[1], b[1]);
const liesOn = (a: Point, b: Point, p: Point) => side(a, b, p) === 0 && within(a, b, p);
const meet = ([a, b]: [Point, Point], [c, d]: [Point, Point]) =>
  liesOn(a, b, c) ||
  liesOn(a, b, d) ||
  liesOn(c, d, a) ||
  liesOn(c, d, b) ||
  (side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0);
const edgesOf = (ring: Point[]) => ring.map((p, i): [Point, Point] => [p, ring[(i + 1) % ring.length]]);
/** Whether a ring runs round a point that is not on it: by the angle that it turns about it. */
const runsRound = (ring: Point[], [x, y]: Point) => {
  let turned = 0;
  for (const [[ax, ay], [bx, by]] of edgesOf(ring)) {
    const by2 = Math.atan2(by - y, bx - x) - Math.atan2(ay - y, ax - x);
    turned += by2 - 2 * Math.PI * Math.round(by2 / (2 * Math.PI));
  }
  return Math.abs(turned) > Math.PI;
};
/** Every edge against every other. */
const isRing = (ring: Point[]) =>
  edgesOf(ring).every(([a, b], i, edges) => {
    if (a[0] === b[0] && a[1] === b[1]) return false;
    return edges.every(([c, d], j) => {
      if (i === j) return true;
      if ((i + 1) % edges.length === j) return !liesOn(a, b, d) && !liesOn(c, d, a);
      return (j + 1) % edges.length === i || !meet([a, b], [c, d]);
    });
  });
const isSound = ([outline, ...holes]: Point[][]) => {
  const rings = [outline, ...holes];
  if (!rings.every(isRing)) return false;
  const apart = rings.every((p, i) =>
    rings.every((q, j) => i >= j || !edgesOf(p).some((a) => edgesOf(q).some((b) => meet(a, b)))),
  );
  return (
    apart &&
    holes.every((hole) => runsRound(outline, hole[0])) &&
    holes.every((hole) => holes.every((other) => hole === other || !runsRound(hole, other[0])))
  );
};

describe('faultOf and faultOfHole', () => {
  const grid = (most: number) =>
    fc.tuple(fc.integer({ min: 0, max: most }), fc.integer({ min: 0, max: most })) as fc.Arbitrary<Point>;
  const counts = { sound: 0, faulty: 0 };

  it('say of shapes on a grid what comparing every edge with every other says', () => {
    const outline = fc.oneof(
      fc.constant<Point[]>(rectangle(0, 0, 12, 12)),
      fc.constant<Point[]>([
        [0, 0],
        [12, 0],
        [12, 12],
        [6, 4],
        [0, 12],
      ]),
      fc.array(grid(12), { minLength: 3, maxLength: 6 }),
    );
    const hole = fc
      .tuple(grid(9), fc.array(grid(4), { minLength: 3, maxLength: 4 }))
      .map(([[x, y], ring]) => ring.map(([u, v]): Point => [x + u, y + v]));
    fc.assert(
      fc.property(outline, fc.array(hole, { maxLength: 2 }), (ring, holes) => {
        const sound = isSound([ring, ...holes]);
        counts[sound ? 'sound' : 'faulty']++;
        expect(faultOf(shape(ring, ...holes)) === undefined).toBe(sound);
        const [last, ...before] = [...holes].reverse();
        if (last !== undefined && isSound([ring, ...before]))
          expect(faultOfHole(shape(ring, ...before), Float64Array.from(last.flat())) === undefined).toBe(
            sound,
          );
      }),
      { seed: 8, numRuns: 6000 },
    );
    expect(Math.min(counts.sound, counts.faulty)).toBeGreaterThan(300);
  });

  it('look at outlines of many corners', () => {
    for (const corners of [2000, 8000]) expect(faultOf(shape(star(corners, () => 50)))).toBeUndefined();
  });
});
