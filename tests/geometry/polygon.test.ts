import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boundingCircle, cardArea, counterClockwise, holds, signedArea } from '../../src/geometry/polygon.js';
import { type Point, rectangle, shape, star } from './panels.js';

const ring = (points: readonly Point[]) => Float64Array.from(points.flat());

// Areas and places by hand (elementary).
const ell: Point[] = [
  [0, 0],
  [30, 0],
  [30, 10],
  [10, 10],
  [10, 40],
  [0, 40],
];

describe('area', () => {
  it('is positive counter-clockwise, negative the other way', () => {
    expect(signedArea(ring(ell))).toBe(600);
    expect(signedArea(ring([...ell].reverse()))).toBe(-600);
  });

  it('keeps its digits far from the origin', () => {
    const far = ring(rectangle(1e7, -1e7, 1e7 + 0.25, -1e7 + 0.5));
    expect(signedArea(far)).toBe(0.125);
  });

  it('leaves holes out, whichever way they run', () => {
    const hole = rectangle(2, 2, 5, 6);
    expect(cardArea(shape(ell, hole))).toBe(588);
    expect(cardArea(shape(ell, [...hole].reverse()))).toBe(588);
  });
});

describe('counterClockwise', () => {
  it('turns a clockwise ring round and leaves another alone', () => {
    const good = ring(ell);
    expect(counterClockwise(good)).toBe(good);
    expect(counterClockwise(ring([...ell].reverse()))).toEqual(good);
  });
});

describe('holds', () => {
  const holed = shape(ell, rectangle(2, 12, 8, 38));
  it.each([
    [5, 5, true],
    [20, 5, true],
    [20, 20, false], // in the crook
    [5, 25, false], // in the hole
    [1, 25, true], // between the hole and the edge
    [-1, 5, false],
    [5, 41, false],
    [1, 10, true], // level with corners
    [31, 10, false],
    [-3, 0, false],
  ])('the point %d, %d: %s', (x, y, expected) => expect(holds(holed, x, y)).toBe(expected));

  it('agrees with the sum of angles that the corners turn through, on random stars', () => {
    // A point is inside when the outline turns once around it: the angle of each edge as seen from it, summed. From a
    // point on an edge that edge is seen at 180°.
    const seen = (points: readonly Point[], x: number, y: number) =>
      points.map(([px, py], i) => {
        const [qx, qy] = points[(i + 1) % points.length];
        const [a, b, c, d] = [px - x, py - y, qx - x, qy - y];
        return Math.atan2(a * d - b * c, a * c + b * d);
      });
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 5, max: 40, noNaN: true }), { minLength: 3, maxLength: 12 }),
        fc.double({ min: -40, max: 40, noNaN: true }),
        fc.double({ min: -40, max: 40, noNaN: true }),
        (distances, x, y) => {
          const points = star(distances.length, (k) => distances[k]);
          const angles = seen(points, x, y);
          fc.pre(angles.every((angle) => Math.abs(angle) < Math.PI - 1e-6));
          fc.pre(points.every(([px, py]) => Math.hypot(px - x, py - y) > 1e-6));
          const around = angles.reduce((sum, angle) => sum + angle, 0) / (2 * Math.PI);
          expect(holds(shape(points), x, y)).toBe(Math.round(around) === 1);
        },
      ),
      { numRuns: 1000 },
    );
  });
});

describe('boundingCircle', () => {
  it('is about the middle of the bounding box', () => {
    expect(boundingCircle(shape(ell).outline)).toEqual({ x: 15, y: 20, radius: 25 });
  });
});
