import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Crossing, crossing, newCrossing } from '../../src/geometry/crossing.js';
import { holds } from '../../src/geometry/polygon.js';
import {
  carry,
  motion,
  type Placed,
  type Point,
  type Pose,
  poses,
  random,
  redrawn,
  shape,
  star,
  type Vector,
  world,
} from './panels.js';

const part = fc.double({ min: -1, max: 1, noNaN: true });
const poseWithin = (spread: number): fc.Arbitrary<Pose> =>
  fc
    .tuple(part, part, part, part, part, part, part)
    .filter(([w, x, y, z]) => Math.hypot(w, x, y, z) > 0.1)
    .map(([w, x, y, z, u, v, t]) => motion(w, x, y, z, [u * spread, v * spread, t * spread]));

const starred = fc
  .array(fc.double({ min: 8, max: 40, noNaN: true }), { minLength: 3, maxLength: 10 })
  .map((reach) => shape(star(reach.length, (k) => reach[k], reach[0])));
const holed = fc
  .array(fc.double({ min: 15, max: 40, noNaN: true }), { minLength: 6, maxLength: 10 })
  .map((reach) =>
    shape(
      star(reach.length, (k) => reach[k], reach[0]),
      star(3 + (reach.length % 4), (k) => reach[k] / 4, reach[1]),
    ),
  );
const convex = fc
  .tuple(fc.integer({ min: 3, max: 9 }), fc.double({ min: 10, max: 40, noNaN: true }), part)
  .map(([corners, reach, turn]) => shape(star(corners, () => reach, turn)));
const placed = (shapes: typeof starred, spread = 15): fc.Arbitrary<Placed> =>
  fc.tuple(shapes, poseWithin(spread)).map(([s, p]) => ({ shape: s, pose: p }));
const anyPanel = placed(fc.oneof(starred, holed));

const cross = (a: Placed, b: Placed): Crossing | undefined => {
  const out = newCrossing();
  return crossing(a.shape, b.shape, poses(a.pose, b.pose), 0, 1, out) ? out : undefined;
};
const close = (a: Crossing | undefined, b: Crossing | undefined) => {
  expect(a === undefined).toBe(b === undefined);
  if (!a || !b) return;
  expect(a.push).toBeCloseTo(b.push, 6);
  expect(a.depth).toBeCloseTo(b.depth, 6);
  expect(a.angle).toBeCloseTo(b.angle, 9);
};
/** How high each corner of a panel stands over the plane of another. */
const heightsOver = ({ shape: { outline }, pose }: Placed, plane: Pose): number[] =>
  Array.from({ length: outline.length / 2 }, (_, i) =>
    height(plane, world(pose, outline[2 * i], outline[2 * i + 1])),
  );
/** A crossing just at the limit of touching may fall on either side of it. */
const clear = (c: Crossing | undefined) => fc.pre(!c || c.push > 1e-3);

describe('crossing, for any two panels', () => {
  it('is the same from a to b as from b to a', () => {
    fc.assert(
      fc.property(anyPanel, anyPanel, (a, b) => {
        const there = cross(a, b);
        const back = cross(b, a);
        close(there, back);
        if (!there || !back) return;
        const both = poses(a.pose, b.pose);
        // Also when the poses stand the other way round in the frame.
        const out = newCrossing();
        expect(crossing(b.shape, a.shape, both, 1, 0, out)).toBe(true);
        expect(out.depth).toBe(back.depth);
      }),
      { numRuns: 500 },
    );
  });

  it('does not change when both are carried along, or drawn in other axes', () => {
    fc.assert(
      fc.property(anyPanel, anyPanel, poseWithin(500), fc.nat(), (a, b, carried, seed) => {
        const before = cross(a, b);
        clear(before);
        const rnd = random(seed);
        const moved = [a, b].map((p) => redrawn({ shape: p.shape, pose: carry(p.pose, carried) }, rnd));
        close(cross(moved[0].panel, moved[1].panel), before);
      }),
      { numRuns: 500 },
    );
  });

  it('is as deep as it pushes or deeper, with a right angle at most', () => {
    fc.assert(
      fc.property(anyPanel, anyPanel, (a, b) => {
        const c = cross(a, b);
        if (!c) return;
        expect(c.push).toBeGreaterThan(0);
        expect(c.depth).toBeGreaterThanOrEqual(c.push - 1e-12);
        expect(c.push).toBeGreaterThanOrEqual(c.depth * Math.sin(c.angle) - 1e-9);
        expect(c.angle).toBeGreaterThan(0);
        expect(c.angle).toBeLessThanOrEqual(Math.PI / 2);
      }),
      { numRuns: 500 },
    );
  });

  it('is at a place where the card of one is pierced, and at a tip or the same place of the other', () => {
    fc.assert(
      fc.property(anyPanel, anyPanel, (a, b) => {
        const c = cross(a, b);
        if (!c) return;
        clear(c);
        const onA = world(a.pose, c.ax, c.ay);
        const onB = world(b.pose, c.bx, c.by);
        const together = Math.hypot(...minus(onA, onB)) < 1e-6;
        if (together) {
          // The middle of the shared stretch: inside both. Depth is then the shift.
          expect(holds(a.shape, c.ax, c.ay)).toBe(true);
          expect(holds(b.shape, c.bx, c.by)).toBe(true);
        } else {
          // The tip stands as high over the other's plane as the push says; the pierced place lies in both planes.
          const [tip, of, pierced] =
            Math.abs(height(b.pose, onA)) > 1e-6 ? [onA, b.pose, onB] : [onB, a.pose, onA];
          expect(Math.abs(height(of, tip))).toBeCloseTo(c.push, 6);
          expect(height(a.pose, pierced)).toBeCloseTo(0, 6);
          expect(height(b.pose, pierced)).toBeCloseTo(0, 6);
          expect(
            holds(
              pierced === onA ? a.shape : b.shape,
              ...((pierced === onA ? [c.ax, c.ay] : [c.bx, c.by]) as [number, number]),
            ),
          ).toBe(true);
        }
      }),
      { numRuns: 500 },
    );
  });

  it('needs corners of each on both sides of the other', () => {
    fc.assert(
      fc.property(anyPanel, anyPanel, (a, b) => {
        if (!cross(a, b)) return;
        const heights = heightsOver(a, b.pose);
        expect(Math.min(...heights)).toBeLessThan(0);
        expect(Math.max(...heights)).toBeGreaterThan(0);
      }),
    );
  });
});

describe('crossing, for convex panels', () => {
  it('is gone when one is moved by the depth, across the line within either plane or along it', () => {
    fc.assert(
      fc.property(placed(convex), placed(convex), (a, b) => {
        const c = cross(a, b);
        if (!c) return;
        const along = unit(times(normal(a.pose), normal(b.pose)));
        const ways = [along, times(normal(a.pose), along), times(normal(b.pose), along)];
        const free = ways.some((way) =>
          [1, -1].some(
            (sign) => !cross({ shape: a.shape, pose: moved(a.pose, way, sign * (c.depth + 1e-6)) }, b),
          ),
        );
        expect(free).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  it('loses depth as a poke is cut back, and is as deep as what is left of it', () => {
    fc.assert(
      fc.property(
        placed(convex),
        placed(convex),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        (a, b, share) => {
          const c = cross(a, b);
          if (!c) return;
          clear(c);
          // Cut b's lesser side to a share of its reach.
          const heights = heightsOver(b, a.pose);
          const [rise, fall] = [Math.max(...heights), -Math.min(...heights)];
          const above = rise <= fall;
          const reach = Math.min(rise, fall);
          const cut = trimmed(b, a.pose, above ? 1 : -1, share * reach);
          const less = cross(a, cut);
          if (!less) throw new Error('the crossing is gone');
          expect(less.depth).toBeLessThanOrEqual(c.depth + 1e-9);
          expect(less.depth).toBeCloseTo(Math.min(c.depth, (share * reach) / Math.sin(c.angle)), 6);
        },
      ),
      { numRuns: 500 },
    );
  });
});

const minus = (p: Vector, q: Vector): Vector => [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
const times = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const unit = (v: Vector): Vector => {
  const length = Math.hypot(...v);
  return [v[0] / length, v[1] / length, v[2] / length];
};
const normal = (p: Pose): Vector => [p[2], p[6], p[10]];
const height = (p: Pose, w: Vector): number => {
  const n = normal(p);
  return n[0] * (w[0] - p[3]) + n[1] * (w[1] - p[7]) + n[2] * (w[2] - p[11]);
};
const moved = (p: Pose, way: Vector, by: number): Pose =>
  p.map((value, i) => (i % 4 === 3 ? value + by * way[(i - 3) / 4] : value));

/** A convex panel without what rises more than `most` over a plane on the given side (Sutherland and Hodgman). */
function trimmed(panel: Placed, plane: Pose, side: 1 | -1, most: number): Placed {
  const { outline } = panel.shape;
  const kept: Point[] = [];
  for (let i = 0, j = outline.length - 2; i < outline.length; j = i, i += 2) {
    const [p, q] = [j, i].map((k): Point => [outline[k], outline[k + 1]]);
    const [hp, hq] = [p, q].map(([x, y]) => most - side * height(plane, world(panel.pose, x, y)));
    if (hp > 0 !== hq > 0) {
      const t = hp / (hp - hq);
      kept.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])]);
    }
    if (hq > 0) kept.push(q);
  }
  return { shape: shape(kept), pose: panel.pose };
}
