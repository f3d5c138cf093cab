import { moveBody } from '../../src/motion/loop/rigid.js';
import { Loop, type LoopJoint } from '../../src/motion/loop.js';

export const DEGREES = 180 / Math.PI;

/** Lays panel k in the plane z = 0: its origin at (x, y), its x axis at an angle. */
export function layFlat(poses: Float64Array, k: number, x: number, y: number, angle: number): void {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  poses.set([c, -s, 0, x, s, c, 0, y, 0, 0, 1, 0], 12 * k);
}

/** Direction of panel k's x axis in the plane z = 0. */
export const heading = (poses: Float64Array, k: number) => Math.atan2(poses[12 * k + 4], poses[12 * k]);

/** By how much panel k turned from one set of poses to another, radians: the trace of a rotation by θ is 1 + 2 cos θ. */
export function turnBetween(before: Float64Array, after: Float64Array, k: number): number {
  let trace = 0;
  for (const row of [0, 4, 8])
    for (let c = 0; c < 3; c++) trace += before[12 * k + row + c] * after[12 * k + row + c];
  return Math.acos(Math.min(1, Math.max(-1, (trace - 1) / 2)));
}

/** The angle from b to a, in (−π, π]. */
export const between = (a: number, b: number) => Math.atan2(Math.sin(a - b), Math.cos(a - b));

/** Turns a panel about its own origin by a rotation vector, and shifts it. */
export function displace(poses: Float64Array, k: number, turn: number[], shift: number[]): void {
  const origin = Float64Array.from([3, 7, 11], (i) => poses[12 * k + i]);
  moveBody(poses, k, origin, Float64Array.from(turn), Float64Array.from(shift));
}

/**
 * Angles of link b and of rocker c of a planar four-bar whose crank a stands at an angle, by the law of cosines in the
 * triangle of the crank's end, the rocker's foot and the knee. `branch` +1: the knee lies to the left of the way from
 * the crank's end to the rocker's foot. Null where the links don't reach, or cannot fold enough.
 */
export function fourBar(a: number, b: number, c: number, d: number, crank: number, branch: 1 | -1) {
  const x = a * Math.cos(crank);
  const y = a * Math.sin(crank);
  const span = Math.hypot(d - x, y);
  if (span > b + c || span < Math.abs(b - c)) return null;
  const way = Math.atan2(-y, d - x);
  const link = way + branch * Math.acos((b * b + span * span - c * c) / (2 * b * span));
  const rocker = Math.atan2(y + b * Math.sin(link), x + b * Math.cos(link) - d);
  return { link, rocker };
}

/** By how much the two links of a four-bar fail to close, mm; below 0 where they close with room to spare. */
export function lackOf(a: number, b: number, c: number, d: number, crank: number): number {
  const span = Math.hypot(d - a * Math.cos(crank), a * Math.sin(crank));
  return Math.max(span - b - c, Math.abs(b - c) - span);
}

/** A planar four-bar in the page: panel 0 the page, 1 the crank (both driven), 2 the link, 3 the rocker. */
export function fourBarLoop(
  [a, b, c, d]: number[],
  start: number,
  branch: 1 | -1,
  options: { play?: number } = {},
) {
  const { play = 0 } = options;
  const pivot = (from: number, to: number, pointA: number, pointB: number): LoopJoint => ({
    kind: 'pivot',
    a: from,
    b: to,
    pointA: [pointA, 0],
    pointB: [pointB, 0],
    play,
  });
  const loop = new Loop([2, 3], [pivot(1, 2, a, 0), pivot(2, 3, b, c), pivot(3, 0, 0, d)]);
  const poses = new Float64Array(48);
  const closed = fourBar(a, b, c, d, start, branch);
  if (!closed) throw new Error('these links do not close');
  layFlat(poses, 0, 0, 0, 0);
  layFlat(poses, 1, 0, 0, start);
  layFlat(poses, 2, a * Math.cos(start), a * Math.sin(start), closed.link);
  layFlat(poses, 3, d, 0, closed.rocker);
  loop.start(poses);
  const turnTo = (crank: number) => {
    layFlat(poses, 1, 0, 0, crank);
    loop.solve(poses);
  };
  return { loop, poses, turnTo };
}
