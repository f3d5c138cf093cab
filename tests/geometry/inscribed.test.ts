import fc from 'fast-check';
import polylabel from 'polylabel';
import { describe, expect, test } from 'vitest';
import { breadthOf } from '../../src/geometry/breadth.js';
import { discInConvex } from '../../src/geometry/inscribed.js';

const disc = (...points: [number, number][]) => discInConvex(Float64Array.from(points.flat()));

describe('the largest disc in a convex panel', () => {
  test('of a strip is as wide as the strip, wherever it lies in it', () => {
    const found = disc([0, 0], [10, 0], [10, 4], [0, 4]);
    expect(found?.radius).toBeCloseTo(2, 12);
    expect(found?.at[1]).toBeCloseTo(2, 12);
    expect(disc([3, 3], [3, 13], [-1, 13], [-1, 3])?.radius).toBeCloseTo(2, 12);
  });

  // A school book's: r = 2 area / perimeter.
  test('of the triangle of 3, 4 and 5 has a radius of 1', () => {
    const found = disc([0, 0], [4, 0], [0, 3]);
    expect(found?.radius).toBeCloseTo(1, 12);
    expect(found?.at.map((value) => Number(value.toFixed(9)))).toEqual([1, 1]);
  });

  // A tab 6 mm deep on a crease of 40 mm, its ends cut back by 45°: the disc touches both long edges.
  test('of a tab is as broad as the tab is deep, and of a tab that tapers less', () => {
    expect(disc([0, 0], [40, 0], [34, 6], [6, 6])?.radius).toBeCloseTo(3, 12);
    // 8 mm long at its crease with ends at 45°, a triangle but for its tip: r = 4 tan 22.5°.
    expect(disc([0, 0], [8, 0], [4.5, 3.5], [3.5, 3.5])?.radius).toBeCloseTo(4 * Math.tan(Math.PI / 8), 12);
  });

  test('of a regular polygon touches every edge', () => {
    for (const n of [3, 4, 6, 7, 48, 400]) {
      const points = Array.from({ length: n }, (_, i): [number, number] => {
        const turn = 0.3 + (2 * Math.PI * i) / n;
        return [50 + 20 * Math.cos(turn), -9 + 20 * Math.sin(turn)];
      });
      const found = disc(...points);
      expect(found?.radius).toBeCloseTo(20 * Math.cos(Math.PI / n), 9);
      expect(Math.hypot((found?.at[0] ?? 0) - 50, (found?.at[1] ?? 0) + 9)).toBeLessThan(1e-6);
    }
  });

  test('is not changed by corners that do not turn, or that stand twice', () => {
    const plain = disc([0, 0], [10, 0], [10, 4], [0, 4])?.radius;
    expect(disc([5, 0], [5, 0], [10, 0], [10, 1], [10, 4], [7, 4], [0, 4], [0, 0], [2, 0])?.radius).toBe(
      plain,
    );
  });

  test('is not looked for where the panel is not convex, runs the other way, or is none', () => {
    expect(disc([0, 0], [10, 0], [10, 10], [5, 5], [0, 10])).toBeNull();
    expect(disc([0, 0], [0, 4], [10, 4], [10, 0])).toBeNull();
    expect(disc([0, 0], [10, 0], [20, 0])).toBeNull();
    expect(disc([0, 0], [10, 0])).toBeNull();
    // A star that turns left at each of its corners, and crosses itself.
    const star = Array.from({ length: 5 }, (_, i): [number, number] => {
      const turn = (4 * Math.PI * i) / 5;
      return [Math.cos(turn), Math.sin(turn)];
    });
    expect(disc(...star)).toBeNull();
  });

  // Against a search by quadtree, which knows nothing of how a panel shrinks.
  test('is the one that a search finds, for panels drawn by chance', () => {
    const angles = fc.uniqueArray(fc.double({ min: 0, max: 6.28, noNaN: true }), {
      minLength: 3,
      maxLength: 12,
    });
    const wide = fc.double({ min: 1, max: 100, noNaN: true });
    fc.assert(
      fc.property(angles, wide, wide, (turns, a, b) => {
        // Corners on an ellipse make a convex ring.
        const points = turns
          .sort((one, other) => one - other)
          .map((turn): [number, number] => [a * Math.cos(turn), b * Math.sin(turn)]);
        const found = disc(...points);
        if (found === null) return;
        const searched = polylabel([points], 0.02).distance;
        expect(found.radius).toBeGreaterThanOrEqual(searched - 1e-9);
        expect(found.radius).toBeLessThanOrEqual(searched + 0.02);
        // And it does lie in the panel, all of it.
        for (const [i, [x, y]] of points.entries()) {
          const [px, py] = points[(i + points.length - 1) % points.length];
          const inwards =
            ((x - px) * (found.at[1] - py) - (y - py) * (found.at[0] - px)) / Math.hypot(x - px, y - py);
          expect(inwards).toBeGreaterThan(found.radius - 1e-6);
        }
      }),
      { numRuns: 100 },
    );
  });

  test('a panel with a hole, or that is not convex, has the breadth that a search finds', () => {
    const square = Float64Array.of(0, 0, 20, 0, 20, 20, 0, 20);
    expect(breadthOf({ outline: square, holes: [] }).breadth).toBeCloseTo(20, 12);
    const holes = [Float64Array.of(9, 9, 11, 9, 11, 11, 9, 11)];
    // In a corner, as far from the hole's corner at (9, 9) as from two edges: r √2 + r = 9 √2.
    expect(breadthOf({ outline: square, holes }).breadth).toBeCloseTo(
      (18 * Math.SQRT2) / (1 + Math.SQRT2),
      1,
    );
  });
});
