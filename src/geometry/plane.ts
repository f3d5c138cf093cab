import { convexHull } from './hull.js';
import type { Line } from './line.js';
import type { Polygon } from './polygon.js';

/** Plane geometry of the sheets: mm, x to the right, y up, the printed face towards us. */
export type Point = readonly [number, number];
/** A closed polygon without a repeated last point. */
export type Ring = readonly Point[];
export type Segment = readonly [Point, Point];

/** An area of card: its outline runs counter-clockwise, its holes clockwise. */
export interface Shape {
  readonly outline: Ring;
  readonly holes: readonly Ring[];
}

/** A rigid motion of the plane: turns by (c, s), after a mirroring y → −y where `flip` is −1, then moves to (x, y). */
export interface Isometry {
  readonly c: number;
  readonly s: number;
  readonly x: number;
  readonly y: number;
  readonly flip: 1 | -1;
}

/** x, y pairs as points. */
export function ringOf(pairs: ArrayLike<number>): Ring {
  return Array.from({ length: pairs.length / 2 }, (_, i) => [pairs[2 * i], pairs[2 * i + 1]] as const);
}

/** A panel's polygon on points, its rings running as they run there. */
export const shapeOf = ({ outline, holes }: Polygon): Shape => ({
  outline: ringOf(outline),
  holes: holes.map(ringOf),
});

export const STILL: Isometry = { c: 1, s: 0, x: 0, y: 0, flip: 1 };

export function moved(m: Isometry, [px, py]: Point): Point {
  const q = m.flip * py;
  return [m.c * px - m.s * q + m.x, m.s * px + m.c * q + m.y];
}

/** A ring moved; turned round where the motion mirrors, so that card stays on its left. */
export function movedRing(m: Isometry, ring: Ring): Ring {
  const points = ring.map((p) => moved(m, p));
  return m.flip === 1 ? points : points.reverse();
}

export function movedShape(m: Isometry, shape: Shape): Shape {
  return { outline: movedRing(m, shape.outline), holes: shape.holes.map((hole) => movedRing(m, hole)) };
}

/** First `inner`, then `outer`. With M = R F, F = diag(1, flip): F R(θ) = R(flip·θ) F. */
export function after(outer: Isometry, inner: Isometry): Isometry {
  const s = outer.flip * inner.s;
  const [x, y] = moved(outer, [inner.x, inner.y]);
  return {
    c: outer.c * inner.c - outer.s * s,
    s: outer.s * inner.c + outer.c * s,
    x,
    y,
    flip: (outer.flip * inner.flip) as 1 | -1,
  };
}

/** The motion that undoes another. */
export function undoing(m: Isometry): Isometry {
  const s = -m.flip * m.s;
  const turned: Isometry = { c: m.c, s, x: 0, y: 0, flip: m.flip };
  const [x, y] = moved(turned, [-m.x, -m.y]);
  return { ...turned, x, y };
}

/** The motion that takes the line `from` onto the line `to`, start on start, mirrored across it or not. */
export function ontoLine(from: Segment, to: Segment, flip: 1 | -1): Isometry {
  const [fx, fy] = direction(from);
  const [tx, ty] = direction(to);
  const gy = flip * fy;
  const turned: Isometry = { c: tx * fx + ty * gy, s: ty * fx - tx * gy, x: 0, y: 0, flip };
  // Middle on middle, so that lengths differing by round-off share the difference.
  const [mx, my] = moved(turned, middle(from));
  const [nx, ny] = middle(to);
  return { ...turned, x: nx - mx, y: ny - my };
}

/** A turn about the origin, degrees counter-clockwise. */
export function turnedBy(degrees: number): Isometry {
  const quarter = (((degrees % 360) + 360) % 360) / 90;
  // Quarter turns are exact, so that a rectangle stays one to the last bit.
  if (Number.isInteger(quarter))
    return { c: [1, 0, -1, 0][quarter], s: [0, 1, 0, -1][quarter], x: 0, y: 0, flip: 1 };
  const a = (degrees * Math.PI) / 180;
  return { c: Math.cos(a), s: Math.sin(a), x: 0, y: 0, flip: 1 };
}

export function segmentOf(line: Line): Segment {
  return [
    [line.x0, line.y0],
    [line.x1, line.y1],
  ];
}

export function distance([ax, ay]: Point, [bx, by]: Point): number {
  return Math.hypot(bx - ax, by - ay);
}

export function middle([[ax, ay], [bx, by]]: Segment): Point {
  return [(ax + bx) / 2, (ay + by) / 2];
}

/** Unit direction of a segment; its left is (−y, x) of that. */
export function direction([[ax, ay], [bx, by]]: Segment): Point {
  const long = Math.hypot(bx - ax, by - ay);
  return [(bx - ax) / long, (by - ay) / long];
}

/** How far along a segment's direction a point lies from its start, and how far to its left, mm. */
export function alongAndLeft(segment: Segment, [px, py]: Point): Point {
  const [ex, ey] = direction(segment);
  const dx = px - segment[0][0];
  const dy = py - segment[0][1];
  return [dx * ex + dy * ey, dy * ex - dx * ey];
}

/** Distance from a point to a segment. */
export function distanceTo(segment: Segment, point: Point): number {
  const [start, end] = segment;
  const [ex, ey] = [end[0] - start[0], end[1] - start[1]];
  const long = Math.hypot(ex, ey);
  if (long < 1e-9) return distance(start, point);
  const [dx, dy] = [point[0] - start[0], point[1] - start[1]];
  const along = dx * (ex / long) + dy * (ey / long);
  if (along < 0) return distance(start, point);
  if (along > long) return distance(end, point);
  return Math.abs(dy * (ex / long) - dx * (ey / long));
}

export interface Box {
  readonly left: number;
  readonly low: number;
  readonly right: number;
  readonly high: number;
}

export function boxOf(points: Iterable<Point>): Box {
  let [left, low, right, high] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    low = Math.min(low, y);
    high = Math.max(high, y);
  }
  return { left, low, right, high };
}

/** The edges of a ring, in order. */
export function edgesOf(ring: Ring): Segment[] {
  return ring.map((p, i) => [p, ring[(i + 1) % ring.length]] as const);
}

/** Area by the trapezoid sum, mm²: positive when the ring runs counter-clockwise. */
export function areaOf(ring: Ring): number {
  let twice = 0;
  for (const [[ax, ay], [bx, by]] of edgesOf(ring))
    twice += (ax - ring[0][0]) * (by - ring[0][1]) - (bx - ring[0][0]) * (ay - ring[0][1]);
  return twice / 2;
}

/** Card in a shape, mm²: the outline less its holes. */
export function cardIn({ outline, holes }: Shape): number {
  return Math.abs(areaOf(outline)) - holes.reduce((sum, hole) => sum + Math.abs(areaOf(hole)), 0);
}

/** The ring so that it runs counter-clockwise (1) or clockwise (−1). */
export function running(ring: Ring, way: 1 | -1): Ring {
  return areaOf(ring) * way >= 0 ? ring : [...ring].reverse();
}

/** Whether a point lies inside a ring (crossings of a ray towards +x); on an edge it may come out either way. */
export function inside(ring: Ring, [x, y]: Point): boolean {
  let odd = false;
  let from = ring[ring.length - 1];
  for (const to of ring) {
    const [ay, by] = [from[1], to[1]];
    if (ay > y !== by > y && x < from[0] + ((y - ay) * (to[0] - from[0])) / (by - ay)) odd = !odd;
    from = to;
  }
  return odd;
}

/** Whether a point lies on the card of a shape. */
export function onCard(shape: Shape, point: Point): boolean {
  return inside(shape.outline, point) && !shape.holes.some((hole) => inside(hole, point));
}

/** A circle as a polygon that runs counter-clockwise; flat sides no farther than 0.01 mm from it below 30 mm radius. */
export function circle([x, y]: Point, radius: number, corners = 72): Ring {
  return Array.from({ length: corners }, (_, i) => {
    const a = (2 * Math.PI * i) / corners;
    return [x + radius * Math.cos(a), y + radius * Math.sin(a)] as const;
  });
}

/** The convex hull, counter-clockwise. */
export function hullOf(points: readonly Point[]): Ring {
  const corners = convexHull(points.flat());
  return Array.from({ length: corners.length / 2 }, (_, k) => [corners[2 * k], corners[2 * k + 1]]);
}
