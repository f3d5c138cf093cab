import { type Geom, intersection, union } from 'polyclip-ts';
import { describe, expect, it } from 'vitest';
import { overlapArea, pile } from '../../src/geometry/coverage.js';
import type { Polygon } from '../../src/geometry/polygon.js';
import { type Point, random, rectangle, shape, star } from '../geometry/panels.js';

// Areas of overlap and union against polyclip-ts, a general library for clipping polygons.

type Rings = [number, number][][];

const rings = ({ outline, holes }: Polygon): Rings =>
  [outline, ...holes].map((ring) =>
    Array.from({ length: ring.length / 2 }, (_, i): [number, number] => [ring[2 * i], ring[2 * i + 1]]),
  );

const areaOf = (geom: Rings[]): number => {
  let area = 0;
  for (const polygon of geom) {
    polygon.forEach((ring, hole) => {
      let twice = 0;
      for (let i = 0; i + 1 < ring.length; i++)
        twice += ring[i][0] * ring[i + 1][1] - ring[i + 1][0] * ring[i][1];
      area += ((hole === 0 ? 1 : -1) * Math.abs(twice)) / 2;
    });
  }
  return area;
};

const both = (a: Polygon, b: Polygon): number => areaOf(intersection(rings(a) as Geom, rings(b) as Geom));

function randomShape(rnd: () => number): Polygon {
  const corners = 3 + Math.floor(8 * rnd());
  const [dx, dy] = [40 * rnd(), 40 * rnd()];
  const at = (points: Point[]): Point[] => points.map(([x, y]) => [x + dx, y + dy]);
  const outline = at(star(corners, () => 12 + 30 * rnd(), 6 * rnd()));
  if (corners < 5 || rnd() < 0.5) return shape(outline);
  const hole = at(star(3 + Math.floor(4 * rnd()), () => 3 + 5 * rnd(), 6 * rnd()));
  return shape(outline, rnd() < 0.5 ? hole : hole.reverse());
}

describe('overlapArea against polyclip-ts', () => {
  it('agrees on 250 random pairs, concave and with holes', { timeout: 30_000 }, () => {
    const rnd = random(1);
    let apart = 0;
    for (let n = 0; n < 250; n++) {
      const [a, b] = [randomShape(rnd), randomShape(rnd)];
      const area = both(a, b);
      expect(overlapArea(a, b), `pair ${n}`).toBeCloseTo(area, 6);
      if (area === 0) apart++;
    }
    expect(apart).toBeLessThan(100);
  });

  it('agrees where edges and corners coincide: shapes on a coarse grid', { timeout: 30_000 }, () => {
    const rnd = random(2);
    const step = () => 5 * Math.floor(5 * rnd());
    for (let n = 0; n < 150; n++) {
      const [x, y, u, v] = [step(), step(), step(), step()];
      const box = shape(rectangle(x, y, x + 15, y + 10));
      const ell = shape([
        [u, v],
        [u + 20, v],
        [u + 20, v + 10],
        [u + 10, v + 10],
        [u + 10, v + 20],
        [u, v + 20],
      ]);
      const ramp = shape([
        [u, v],
        [u + 20, v + 20],
        [u, v + 20],
      ]);
      for (const [a, b] of [
        [box, ell],
        [box, ramp],
        [ell, ramp],
      ])
        expect(overlapArea(a, b), `pair ${n}`).toBeCloseTo(both(a, b), 9);
    }
  });
});

describe('pile against polyclip-ts', () => {
  // The thickest place by trying every set of six shapes: the greatest sum of a set that has any area in common.
  it('finds the thickest set of 20 random piles, how much is so thick, and how much is covered', {
    timeout: 30_000,
  }, () => {
    const rnd = random(3);
    for (let n = 0; n < 20; n++) {
      const shapes = Array.from({ length: 6 }, () => randomShape(rnd));
      const thicknesses = shapes.map(() => 0.1 + Math.floor(1000 * rnd()) / 3000);
      const known = new Map<number, Rings[]>();
      const common = (set: number): Rings[] => {
        const last = 31 - Math.clz32(set);
        const rest = set & ~(1 << last);
        const own = rings(shapes[last]);
        const made =
          known.get(set) ??
          (rest === 0
            ? [own.map((ring) => [...ring, ring[0]])]
            : common(rest).length === 0
              ? []
              : intersection(common(rest) as Geom, own as Geom));
        known.set(set, made);
        return made;
      };
      const thicknessOf = (set: number) =>
        thicknesses.reduce((sum, t, i) => sum + (set & (1 << i) ? t : 0), 0);
      // From the thickest set on: the first with any area is what is sought.
      const sets = Array.from({ length: (1 << shapes.length) - 1 }, (_, i) => i + 1);
      const thickest = sets
        .sort((p, q) => thicknessOf(q) - thicknessOf(p))
        .find((set) => areaOf(common(set)) > 0);
      if (thickest === undefined) throw new Error('shapes without area');
      const best = { thickness: thicknessOf(thickest), area: areaOf(common(thickest)) };
      const found = pile(shapes, thicknesses);
      const covered = areaOf(
        union(rings(shapes[0]) as Geom, ...shapes.slice(1).map((s) => rings(s) as Geom)),
      );
      expect(found?.thickness, `pile ${n}`).toBeCloseTo(best.thickness, 9);
      // Less slivers: the trapezoids under 0.02 mm tall or across that the place falls into.
      const slivers = best.area - (found?.area ?? 0);
      expect(slivers, `pile ${n}`).toBeGreaterThan(-1e-6);
      expect(slivers, `pile ${n}`).toBeLessThan(0.2);
      expect(found?.covered, `pile ${n}`).toBeCloseTo(covered, 6);
    }
  });
});
