import type { Line } from './line.js';
import { outsideOf } from './ring-distance.js';

/** Nearer to an edge than this, mm, is at the edge and not inside. */
const AT_EDGE = 1e-4;

/** How much of a line, of some length, lies inside a ring, mm: what runs along an edge does not. */
export function lengthWithin({ x0, y0, x1, y1 }: Line, ring: Float64Array): number {
  const [dx, dy] = [x1 - x0, y1 - y0];
  const long = Math.hypot(dx, dy);
  const shares = [0, 1];
  let [least, most] = [Infinity, -Infinity];
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const a = (dx * (ring[j + 1] - y0) - dy * (ring[j] - x0)) / long;
    const b = (dx * (ring[i + 1] - y0) - dy * (ring[i] - x0)) / long;
    least = Math.min(least, b);
    most = Math.max(most, b);
    if (a > 0 === b > 0 && Math.abs(b) > AT_EDGE) continue;
    const t = Math.abs(b) <= AT_EDGE ? 1 : a / (a - b);
    const px = ring[j] + t * (ring[i] - ring[j]) - x0;
    const py = ring[j + 1] + t * (ring[i + 1] - ring[j + 1]) - y0;
    shares.push((px * dx + py * dy) / (long * long));
  }
  if (least > -AT_EDGE || most < AT_EDGE) return 0;
  shares.sort((p, q) => p - q);
  let within = 0;
  for (let i = 0; i + 1 < shares.length; i++) {
    const [from, to] = [Math.max(0, shares[i]), Math.min(1, shares[i + 1])];
    const middle = (from + to) / 2;
    if (to > from && outsideOf(ring, [x0 + middle * dx, y0 + middle * dy]) < -AT_EDGE) within += to - from;
  }
  return within * long;
}
