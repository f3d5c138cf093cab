import type { Line } from '../geometry/line.js';
import type { Crease } from './crease.js';
import { POSE } from './pose.js';

/** Sine of the angle between two panels below which they are flat, but for round-off. */
const FLAT = 1e-6;

/** The sense of a crease as it is seen in some poses; 0 where its panels are flat. */
export function senseAt({ between, lines, sides }: Crease, poses: Float64Array): 1 | -1 | 0 {
  const [e, n1, n2] = [
    along(poses, between[0], lines[0], 0),
    along(poses, between[0], lines[0], sides[0]),
    along(poses, between[1], lines[1], sides[1]),
  ];
  const turn =
    (n1[1] * n2[2] - n1[2] * n2[1]) * e[0] +
    (n1[2] * n2[0] - n1[0] * n2[2]) * e[1] +
    (n1[0] * n2[1] - n1[1] * n2[0]) * e[2];
  return Math.abs(turn) < FLAT ? 0 : turn > 0 ? 1 : -1;
}

/** The unit direction of a line on panel k in space; or square to it in the panel, to its left (1) or right (−1). */
function along(poses: Float64Array, k: number, { x0, y0, x1, y1 }: Line, side: 1 | -1 | 0): number[] {
  const long = Math.hypot(x1 - x0, y1 - y0);
  const [ex, ey] = [(x1 - x0) / long, (y1 - y0) / long];
  const [x, y] = side === 0 ? [ex, ey] : [-side * ey, side * ex];
  return [0, 4, 8].map((r) => poses[k * POSE + r] * x + poses[k * POSE + r + 1] * y);
}
