import type { Crossing } from '../../src/geometry/crossing.js';
import type { Polygon } from '../../src/geometry/polygon.js';

/** Panels and poses for the tests of crossing, built without the code under test. */

export type Point = readonly [number, number];
export type Vector = readonly [number, number, number];

/** A pose as twelve numbers, row by row. */
export type Pose = readonly number[];

export const shape = (outline: readonly Point[], ...holes: (readonly Point[])[]): Polygon => ({
  outline: Float64Array.from(outline.flat()),
  holes: holes.map((hole) => Float64Array.from(hole.flat())),
});

export const rectangle = (x0: number, y0: number, x1: number, y1: number): Point[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

/** The same numbers from the same seed: mulberry32, public domain. */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t = (t + Math.imul(t ^ (t >>> 7), t | 61)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** The pose that puts a panel's axes along two unit vectors at right angles, from an origin. */
export function pose(origin: Vector, x: Vector, y: Vector): Pose {
  const z = [x[1] * y[2] - x[2] * y[1], x[2] * y[0] - x[0] * y[2], x[0] * y[1] - x[1] * y[0]];
  return [0, 1, 2].flatMap((i) => [x[i], y[i], z[i], origin[i]]);
}

/** A turn given by a unit quaternion, then a shift. */
export function motion(w: number, x: number, y: number, z: number, shift: Vector): Pose {
  const length = Math.hypot(w, x, y, z);
  const [a, b, c, d] = [w / length, x / length, y / length, z / length];
  return pose(
    shift,
    [1 - 2 * (c * c + d * d), 2 * (b * c + a * d), 2 * (b * d - a * c)],
    [2 * (b * c - a * d), 1 - 2 * (b * b + d * d), 2 * (c * d + a * b)],
  );
}

export function randomMotion(rnd: () => number, spread: number): Pose {
  const part = () => 2 * rnd() - 1;
  const turn = [part(), part(), part(), part()];
  const shift: Vector = [part() * spread, part() * spread, part() * spread];
  return motion(turn[0], turn[1], turn[2], turn[3] + 1e-3, shift);
}

/** First `inner`, then `outer`. */
export const carry = (inner: Pose, outer: Pose): Pose =>
  [0, 1, 2].flatMap((i) =>
    [0, 1, 2, 3].map((j) => {
      let sum = j === 3 ? outer[4 * i + 3] : 0;
      for (let k = 0; k < 3; k++) sum += outer[4 * i + k] * inner[4 * k + j];
      return sum;
    }),
  );

/** The world point of a panel's (x, y). */
export const world = (p: Pose, x: number, y: number): Vector => [
  p[0] * x + p[1] * y + p[3],
  p[4] * x + p[5] * y + p[7],
  p[8] * x + p[9] * y + p[11],
];

/** A panel with its pose. */
export interface Placed {
  readonly shape: Polygon;
  readonly pose: Pose;
}

/**
 * The same panel in the same place, drawn in other axes: turned, shifted and perhaps seen from its other face. Also
 * says where a point of the old axes is in the new.
 */
export function redrawn(panel: Placed, rnd: () => number): { panel: Placed; point: (p: Point) => Point } {
  const turn = 2 * Math.PI * rnd();
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const [dx, dy] = [80 * rnd() - 40, 80 * rnd() - 40];
  const face = rnd() < 0.5 ? 1 : -1;
  const point = ([x, y]: Point): Point => [c * x - s * face * y + dx, s * x + c * face * y + dy];
  const ring = (old: Float64Array): Point[] => {
    const points: Point[] = [];
    for (let i = 0; i < old.length; i += 2) points.push(point([old[i], old[i + 1]]));
    return face === 1 ? points : points.reverse();
  };
  // Undone: x = c (x' − dx) + s (y' − dy), face · y = −s (x' − dx) + c (y' − dy).
  const back = pose([-c * dx - s * dy, face * (s * dx - c * dy), 0], [c, -face * s, 0], [s, face * c, 0]);
  return {
    panel: {
      shape: shape(ring(panel.shape.outline), ...panel.shape.holes.map(ring)),
      pose: carry(back, panel.pose),
    },
    point,
  };
}

export const poses = (...each: Pose[]): Float64Array => Float64Array.from(each.flat());

/** A copy of a result, for comparing after the next call has overwritten it. */
export const copy = (c: Crossing): Crossing => ({ ...c });

/** A star-shaped outline: corners at growing angles, each at its own distance; concave when these differ enough. */
export function star(corners: number, distance: (k: number) => number, turn = 0): Point[] {
  return Array.from({ length: corners }, (_, k) => {
    const angle = turn + (2 * Math.PI * k) / corners;
    return [distance(k) * Math.cos(angle), distance(k) * Math.sin(angle)];
  });
}
