import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import type { Polygon } from '../../../src/geometry/polygon.js';
import { type KnifeCut, knifeCuts } from '../../../src/score/trims/knife.js';
import { areaInCommon, lengthWellInside, ringOf } from '../areas.js';

vi.setConfig({ testTimeout: 60_000 });

const rectangle = (wide: number, high: number): Polygon => ({
  outline: Float64Array.of(0, 0, wide, 0, wide, high, 0, high),
  holes: [],
});
const best = (panel: Polygon, points: number[]): KnifeCut => knifeCuts(panel, points)[0];

/** Least distance of points inside a convex ring to its edges, mm; below 0 when one lies outside. */
function room(region: Float64Array, points: readonly number[]): number {
  let least = Infinity;
  for (let i = 0, j = region.length - 2; i < region.length; j = i, i += 2) {
    const [dx, dy] = [region[i] - region[j], region[i + 1] - region[j + 1]];
    for (let p = 0; p < points.length; p += 2) {
      const off = (dx * (points[p + 1] - region[j + 1]) - dy * (points[p] - region[j])) / Math.hypot(dx, dy);
      least = Math.min(least, off);
    }
  }
  return least;
}

describe('the knife', () => {
  it('cuts a strip off an edge with one stroke, a quarter of a millimetre clear of what passes', () => {
    // What passes reaches 4 mm into the right edge of a card of 60 × 20 mm, over nearly all its height.
    const { strokes, area, region } = best(rectangle(60, 20), [60, 1, 60, 19, 56, 1, 56, 19]);
    expect(strokes).toBe(1);
    expect(area).toBeCloseTo(4.25 * 20, 6);
    expect(room(region, [60, 1, 60, 19, 56, 1, 56, 19])).toBeCloseTo(0.25, 9);
  });

  it('cuts a corner off with one stroke', () => {
    // The corner itself and 6 mm along either edge: a stroke at 45°, a quarter of a millimetre beyond them.
    const { strokes, area } = best(rectangle(60, 60), [60, 60, 54, 60, 60, 54]);
    expect(strokes).toBe(1);
    expect(area).toBeCloseTo((6 + 0.25 * Math.SQRT2) ** 2 / 2, 6);
  });

  it('cuts a notch into an edge with three strokes', () => {
    // A rod 2 mm thick, 10 mm deep in the middle of the right edge.
    const { strokes, area } = best(rectangle(60, 60), [60, 29, 60, 31, 50, 29, 50, 31]);
    expect(strokes).toBe(3);
    expect(area).toBeCloseTo(10.25 * 2.5, 6);
  });

  it('cuts a window with four strokes where that is far from every edge', () => {
    const { strokes, area } = best(rectangle(100, 100), [48, 47, 52, 47, 52, 53, 48, 53]);
    expect(strokes).toBe(4);
    expect(area).toBeCloseTo(4.5 * 6.5, 6);
  });

  it('takes out all that passes, at the area by Clipper2, the least cost first', () => {
    const place = fc.record({ x: fc.integer({ min: 0, max: 60 }), y: fc.integer({ min: 0, max: 40 }) });
    fc.assert(
      fc.property(
        fc.uniqueArray(place, { minLength: 3, maxLength: 8, selector: ({ x, y }) => `${x} ${y}` }),
        (places) => {
          // A panel with a notch and a window.
          const panel: Polygon = {
            outline: Float64Array.of(0, 0, 60, 0, 60, 40, 35, 40, 30, 25, 25, 40, 0, 40),
            holes: [Float64Array.of(5, 5, 5, 15, 15, 15, 15, 5)],
          };
          const points = places.flatMap(({ x, y }) => [x, y]);
          const cuts = knifeCuts(panel, points);
          let last = 0;
          for (const { region, wide, strokes, area } of cuts) {
            expect(room(region, points)).toBeGreaterThan(0.25 - 1e-9);
            // The wide cut is the same with 2 mm more card around its strokes: as far as the box in which both end.
            expect(room(wide, Array.from(region))).toBeGreaterThan(-1e-9);
            expect([1, 2, 3, 4]).toContain(strokes);
            const cost = area * (1 + 0.15 * (strokes - 1));
            expect(cost).toBeGreaterThan(last - 1e-9);
            last = cost;
          }
          // By far not all, to save time.
          for (const { region, area } of cuts.slice(0, 20)) {
            const ring = ringOf(region);
            const card =
              areaInCommon(ringOf(panel.outline), ring) - areaInCommon(ringOf(panel.holes[0]), ring);
            expect(area).toBeCloseTo(card, 2);
          }
        },
      ),
      { seed: 4, numRuns: 10 },
    );
  });

  it('leaves at least a neck of 2 mm where the wide cut does not part it', () => {
    const { region, wide } = best(rectangle(60, 60), [60, 29, 60, 31, 50, 29, 50, 31]);
    // The notch ends at x = 49.75; the wide one at 47.75, and both begin beyond the edge.
    const leftmost = (ring: Float64Array) => Math.min(...ring.filter((_, i) => i % 2 === 0));
    expect(leftmost(region)).toBeCloseTo(49.75, 9);
    expect(leftmost(wide)).toBeCloseTo(47.75, 9);
    expect(lengthWellInside(ringOf(wide), { x0: 48, y0: 30, x1: 60, y1: 30 })).toBeCloseTo(12, 1);
  });

  it('has nothing to cut for fewer than a point', () => {
    expect(knifeCuts(rectangle(10, 10), [])).toEqual([]);
  });
});
