import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { discInConvex } from '../../src/geometry/inscribed.js';
import { onCard, type Point, type Ring, type Shape } from '../../src/geometry/plane.js';
import { widePlace } from '../../src/geometry/room.js';

const box = (x: number, y: number, width: number, height: number): Ring => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];

/** How far a point lies from all edges of a shape, by the distance to each. */
function clearance({ outline, holes }: Shape, [x, y]: Point): number {
  let least = Number.POSITIVE_INFINITY;
  for (const ring of [outline, ...holes])
    ring.forEach(([bx, by], i) => {
      const [ax, ay] = ring.at(i - 1) ?? [bx, by];
      const [dx, dy] = [bx - ax, by - ay];
      const t = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
      least = Math.min(least, Math.hypot(x - ax - t * dx, y - ay - t * dy));
    });
  return least;
}

describe('a wide place', () => {
  test('of a triangle lies on it, with four fifths of the room of its inscribed disc', () => {
    const at = fc.double({ min: -90, max: 90, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(at, at), { minLength: 3, maxLength: 3 }), (outline) => {
        const widest = discInConvex(Float64Array.from(outline.flat()))?.radius ?? 0;
        fc.pre(widest > 0.5);
        const place = widePlace({ outline, holes: [] });
        expect(onCard({ outline, holes: [] }, place.at)).toBe(true);
        expect(place.radius).toBeCloseTo(clearance({ outline, holes: [] }, place.at), 9);
        expect(place.radius).toBeGreaterThanOrEqual(0.8 * widest - 1e-9);
      }),
      { numRuns: 200 },
    );
  });

  test('of a long thin strip round a corner lies on the strip', () => {
    const outline: Ring = [
      [0, 0],
      [200, 0],
      [200, 0.5],
      [0.5, 0.5],
      [0.5, 200],
      [0, 200],
    ];
    expect(widePlace({ outline, holes: [] }).radius).toBeGreaterThan(0.2);
  });

  // Half-way between the middles of four holes 2 mm apart, each 0.02 mm wide: √2 mm from their corners, but for 0.02.
  test('of card with many pin holes keeps away from them', () => {
    const holes = Array.from({ length: 441 }, (_, i) =>
      box(2 * (i % 21) - 0.01, 2 * Math.floor(i / 21) - 0.01, 0.02, 0.02),
    );
    const shape = { outline: box(-1, -1, 42, 42), holes };
    const { at, radius } = widePlace(shape);
    expect(radius).toBeCloseTo(clearance(shape, at), 9);
    expect(radius).toBeGreaterThan(0.8 * Math.SQRT2);
    expect(radius).toBeLessThan(Math.SQRT2);
  });
});
