import { type Assembly, POSE } from '../motion/assembly.js';
import { worldPoint } from '../motion/pose.js';
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

/** How far a point lies from the edges of a ring, mm; negative inside it. */
export function outsideOf(ring: Float64Array, [x, y]: Flat): number {
  let nearest = Number.POSITIVE_INFINITY;
  let inside = false;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const [ax, ay, bx, by] = [ring[j], ring[j + 1], ring[i], ring[i + 1]];
    const [ex, ey] = [bx - ax, by - ay];
    const t = Math.min(1, Math.max(0, ((x - ax) * ex + (y - ay) * ey) / (ex * ex + ey * ey || 1)));
    nearest = Math.min(nearest, Math.hypot(x - ax - t * ex, y - ay - t * ey));
    if (ay > y !== by > y && x < ax + (ex * (y - ay)) / ey) inside = !inside;
  }
  return inside ? -nearest : nearest;
}
