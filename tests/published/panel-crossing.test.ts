import { type Geom, intersection } from 'polyclip-ts';
import { ShapeUtils, Vector2, Vector3 } from 'three';
import { ExtendedTriangle } from 'three-mesh-bvh';
import { describe, expect, it } from 'vitest';
import { crossing, newCrossing } from '../../src/geometry/crossing.js';
import type { Polygon } from '../../src/geometry/polygon.js';
import {
  carry,
  type Placed,
  type Point,
  type Pose,
  pose,
  poses,
  random,
  randomMotion,
  shape,
  star,
  type Vector,
  world,
} from '../geometry/panels.js';

// Against general-purpose libraries: three-mesh-bvh (triangle against triangle) on panels cut into triangles by three,
// for whether they cross; polyclip-ts (polygon clipping) for the parts on either side of the line, for how deep.

const points = (ring: Float64Array): Point[] =>
  Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i], ring[2 * i + 1]]);

function triangles({ shape, pose }: Placed): ExtendedTriangle[] {
  const outline = points(shape.outline);
  const holes = shape.holes.map(points);
  const vectors = (ring: Point[]) => ring.map(([x, y]) => new Vector2(x, y));
  const corners = [...outline, ...holes.flat()].map(([x, y]) => new Vector3(...world(pose, x, y)));
  return ShapeUtils.triangulateShape(vectors(outline), holes.map(vectors)).map(
    ([i, j, k]) => new ExtendedTriangle(corners[i], corners[j], corners[k]),
  );
}

const trianglesCross = (a: Placed, b: Placed): boolean => {
  const [ta, tb] = [triangles(a), triangles(b)];
  return ta.some((s) => tb.some((t) => s.intersectsTriangle(t)));
};

const cross = (a: Placed, b: Placed, out = newCrossing()) =>
  crossing(a.shape, b.shape, poses(a.pose, b.pose), 0, 1, out) ? out : undefined;

/** A random triangle, or a concave outline, in half the cases with a hole around its middle. */
function randomShape(rnd: () => number): Polygon {
  const corners = 3 + Math.floor(8 * rnd());
  const outline = star(corners, () => 12 + 30 * rnd(), 6 * rnd());
  if (corners < 5 || rnd() < 0.5) return shape(outline);
  // With five corners or more, 12 or more away, the edges stay 12 cos 36° = 9.7 from the middle.
  return shape(outline, star(3 + Math.floor(4 * rnd()), () => 3 + 5 * rnd(), 6 * rnd()).reverse());
}

const randomPanel = (rnd: () => number, spread: number): Placed => ({
  shape: randomShape(rnd),
  pose: randomMotion(rnd, spread),
});

describe('whether two panels cross, against three-mesh-bvh', () => {
  it.each([
    ['far apart', 40],
    ['close', 22],
    ['through each other', 8],
  ] as const)('agrees on 3000 random pairs %s', { timeout: 30_000 }, (_, spread) => {
    const rnd = random(spread);
    const tally = { crossing: 0, clear: 0 };
    for (let n = 0; n < 3000; n++) {
      const a = randomPanel(rnd, spread);
      const b = randomPanel(rnd, spread);
      const ours = cross(a, b) !== undefined;
      expect(ours, `pair ${n}`).toBe(trianglesCross(a, b));
      tally[ours ? 'crossing' : 'clear']++;
    }
    expect(Math.min(tally.crossing, tally.clear)).toBeGreaterThan(50);
  });

  // Nearly flat: b turned by 0.05° to 5° out of the plane of a, so that the common line is ill placed.
  it('agrees on 2000 random pairs that are nearly flat', () => {
    const rnd = random(5);
    const tally = { crossing: 0, clear: 0 };
    for (let n = 0; n < 2000; n++) {
      const t = (Math.PI / 180) * 0.05 * 100 ** rnd();
      const turn = 6 * rnd();
      const tilted = pose(
        [30 * rnd() - 15, 30 * rnd() - 15, (rnd() - 0.5) * 20 * Math.sin(t)],
        [Math.cos(turn), Math.sin(turn), 0],
        [-Math.sin(turn) * Math.cos(t), Math.cos(turn) * Math.cos(t), Math.sin(t)],
      );
      const carried = randomMotion(rnd, 100);
      const a = { shape: randomShape(rnd), pose: carried };
      const b = { shape: randomShape(rnd), pose: carry(tilted, carried) };
      const ours = cross(a, b) !== undefined;
      expect(ours, `pair ${n}`).toBe(trianglesCross(a, b));
      tally[ours ? 'crossing' : 'clear']++;
    }
    expect(Math.min(tally.crossing, tally.clear)).toBeGreaterThan(50);
  });

  // The depth is a way out: one of the six moves by it (a across the line within its own plane, the same for b, or
  // along the line, either way) parts two convex panels; so the library must find them parted.
  it('finds convex panels parted after a move by the depth', () => {
    const rnd = random(77);
    let parted = 0;
    for (let n = 0; n < 1500; n++) {
      const convex = () => shape(star(3 + Math.floor(6 * rnd()), () => 25, 6 * rnd()));
      const a = { shape: convex(), pose: randomMotion(rnd, 12) };
      const b = { shape: convex(), pose: randomMotion(rnd, 12) };
      const out = cross(a, b);
      if (!out) continue;
      const ways = sixWays(a.pose, b.pose);
      const free = ways.some(
        (way) => !trianglesCross({ shape: a.shape, pose: moved(a.pose, way, out.depth + 1e-6) }, b),
      );
      expect(free, `pair ${n}`).toBe(true);
      parted++;
    }
    expect(parted).toBeGreaterThan(500);
  });
});

const unit = (v: Vector): Vector => {
  const length = Math.hypot(...v);
  return [v[0] / length, v[1] / length, v[2] / length];
};
const times = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const normal = (p: Pose): Vector => [p[2], p[6], p[10]];

function sixWays(a: Pose, b: Pose): Vector[] {
  const along = unit(times(normal(a), normal(b)));
  const ways = [along, times(normal(a), along), times(normal(b), along)];
  return ways.flatMap((way) => [way, [-way[0], -way[1], -way[2]] as const]);
}

const moved = (p: Pose, way: Vector, by: number): Pose =>
  p.map((value, i) => (i % 4 === 3 ? value + by * way[(i - 3) / 4] : value));

/** A part of a panel on one side of the line: how far it rises from it, and its stretches of the line. */
interface Part {
  readonly reach: number;
  readonly touches: readonly (readonly [number, number])[];
}

/**
 * The connected parts of a panel above the common line, by polyclip-ts. The panel is drawn in axes with the line as its
 * x, so that clipping by a box above y = 0 leaves the parts, and their edges at y = 0 are the stretches.
 */
function partsAbove(drawn: Point[][], side: 1 | -1): Part[] {
  const far = 500;
  const box: Geom = [
    [
      [-far, 0],
      [far, 0],
      [far, side * far],
      [-far, side * far],
    ],
  ];
  const clipped = intersection(
    drawn.map((ring) => ring.map(([x, y]): [number, number] => [x, y])),
    box,
  );
  return clipped.map((polygon) => {
    const touches: [number, number][] = [];
    let reach = 0;
    for (const ring of polygon) {
      for (let i = 0; i + 1 < ring.length; i++) {
        const [p, q] = [ring[i], ring[i + 1]];
        reach = Math.max(reach, Math.abs(p[1]));
        if (p[1] === 0 && q[1] === 0) touches.push(p[0] < q[0] ? [p[0], q[0]] : [q[0], p[0]]);
      }
    }
    return { reach, touches };
  });
}

/** Depth and push by the definition, from the library's parts. */
function byClipping(a: Placed, b: Placed): { depth: number; push: number } | undefined {
  const n = { a: normal(a.pose), b: normal(b.pose) };
  const cross = times(n.a, n.b);
  const sine = Math.hypot(...cross);
  const along = unit(cross);
  const dot = (p: Vector, q: Vector) => p[0] * q[0] + p[1] * q[1] + p[2] * q[2];
  const draw = (panel: Placed, other: Pose): Point[][] => {
    const at: Vector = [other[3], other[7], other[11]];
    const face = normal(other);
    return [panel.shape.outline, ...panel.shape.holes].map((ring) =>
      points(ring).map(([x, y]) => {
        const w = world(panel.pose, x, y);
        return [dot(w, along), (dot(w, face) - dot(at, face)) / sine];
      }),
    );
  };
  const drawn = { a: draw(a, b.pose), b: draw(b, a.pose) };
  // Each stretch has one part on either side; the poke is the lesser reach of the two.
  const stretches = (rings: Point[][]) => {
    const [above, below] = [partsAbove(rings, 1), partsAbove(rings, -1)];
    return above.flatMap((up) =>
      up.touches.map(([from, to]) => {
        const middle = (from + to) / 2;
        const down = below.find((part) => part.touches.some(([f, t]) => f < middle && middle < t));
        if (!down) throw new Error('a stretch with nothing below');
        return { from, to, poke: Math.min(up.reach, down.reach) };
      }),
    );
  };
  let deepest: { depth: number; push: number } | undefined;
  for (const s of stretches(drawn.a)) {
    for (const t of stretches(drawn.b)) {
      const shift = Math.min(s.to - t.from, t.to - s.from);
      if (shift <= 0) continue;
      const poke = Math.min(s.poke, t.poke);
      const found = { depth: Math.min(poke, shift), push: Math.min(poke * sine, shift) };
      // Of two stretches that one part pokes through both push alike, and the deeper is told.
      const more = deepest ? found.push - deepest.push : Infinity;
      if (more > 1e-9 || (more > -1e-9 && deepest && found.depth > deepest.depth)) deepest = found;
    }
  }
  return deepest;
}

describe('depth and push, against the parts that polyclip-ts leaves', () => {
  it('agree on 300 random pairs, concave and with holes', { timeout: 30_000 }, () => {
    const rnd = random(9);
    let crossed = 0;
    for (let n = 0; n < 300; n++) {
      const a = randomPanel(rnd, 10);
      const b = randomPanel(rnd, 10);
      const theirs = byClipping(a, b);
      const ours = cross(a, b);
      expect(ours !== undefined, `pair ${n}`).toBe(theirs !== undefined);
      if (!ours || !theirs) continue;
      expect(ours.push).toBeCloseTo(theirs.push, 6);
      expect(ours.depth).toBeCloseTo(theirs.depth, 6);
      crossed++;
    }
    expect(crossed).toBeGreaterThan(150);
  });
});
