import { expect, it } from 'vitest';
import { outlineAround } from '../../src/geometry/around.js';
import { faultOf } from '../../src/geometry/faults.js';
import { outsideOf } from '../../src/geometry/ring-distance.js';

const flat = (ring: readonly (readonly [number, number])[]) => Float64Array.from(ring.flat());

/** Points turned about the origin, so that those in a row are so but for round-off. */
const turned = (points: readonly (readonly [number, number])[], angle: number): [number, number][] =>
  points.map(([x, y]) => [
    x * Math.cos(angle) - y * Math.sin(angle),
    x * Math.sin(angle) + y * Math.cos(angle),
  ]);

const TURNS = Array.from({ length: 60 }, (_, k) => 0.1 * k);

it.each(['round', 'straight'] as const)(
  'three points in a row have %s card around all of them',
  (corners) => {
    for (const angle of TURNS) {
      const points = turned(
        [
          [0, 0],
          [10, 0],
          [23, 0],
        ],
        angle,
      );
      const ring = flat(outlineAround(points, 3, corners));
      expect(faultOf({ outline: ring, holes: [] })).toBeUndefined();
      // The strip reaches 3 mm to either side; chords of an arc run a little within it.
      for (const point of points) expect(-outsideOf(ring, point)).toBeGreaterThan(2.9);
    }
  },
);

it.each([1e-12, 1e-9, 1e-7, 1e-5])('a corner that turns by next to nothing (%d) is none', (by) => {
  for (const angle of TURNS) {
    const points = turned(
      [
        [0, 0],
        [20, -by],
        [40, 0],
        [20, 15],
      ],
      angle,
    );
    const ring = flat(outlineAround(points, 3, 'round'));
    expect(faultOf({ outline: ring, holes: [] })).toBeUndefined();
    for (const point of points) expect(-outsideOf(ring, point)).toBeGreaterThan(2.9);
  }
});

it('without a margin it is the hull itself', () => {
  expect(
    outlineAround(
      [
        [0, 0],
        [20, 0],
        [20, 15],
        [10, 2],
      ],
      0,
      'round',
    ),
  ).toEqual([
    [0, 0],
    [20, 0],
    [20, 15],
  ]);
});

it('around one point it is a circle or a square', () => {
  expect(outlineAround([[5, 7]], 3, 'straight')).toEqual([
    [2, 4],
    [8, 4],
    [8, 10],
    [2, 10],
  ]);
  for (const [x, y] of outlineAround(
    [
      [5, 7],
      [5, 7],
    ],
    3,
    'round',
  ))
    expect(Math.hypot(x - 5, y - 7)).toBeCloseTo(3, 9);
});
