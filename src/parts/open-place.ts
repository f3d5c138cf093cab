import type { Assembly } from '../motion/assembly.js';
import { POSE, worldPoint } from '../motion/pose.js';
import type { Flat } from './attach.js';

/** Where a point of one panel lies in the plane of another, in the open figure: square to that plane. */
export function pointInOpen(assembly: Assembly, from: number, [x, y]: Flat, to: number): [number, number] {
  const p = new Float64Array(3);
  worldPoint(assembly.open, from, x, y, p);
  const j = to * POSE;
  const q = assembly.open;
  const d = [p[0] - q[j + 3], p[1] - q[j + 7], p[2] - q[j + 11]];
  return [
    q[j] * d[0] + q[j + 4] * d[1] + q[j + 8] * d[2],
    q[j + 1] * d[0] + q[j + 5] * d[1] + q[j + 9] * d[2],
  ];
}
