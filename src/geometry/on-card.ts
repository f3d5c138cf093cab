import type { Line } from './line.js';
import type { Polygon } from './polygon.js';
import { outsideOf } from './ring-distance.js';

/** What misses card by less than this, mm, lies on it. */
const NEAR = 0.02;

/** How much of a line lies on card or along its edge, 0 to 1. */
export function shareOnCard({ x0, y0, x1, y1 }: Line, { outline, holes }: Polygon): number {
  const [dx, dy] = [x1 - x0, y1 - y0];
  const shares = [0, 1];
  for (const ring of [outline, ...holes])
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const a = dx * (ring[j + 1] - y0) - dy * (ring[j] - x0);
      const b = dx * (ring[i + 1] - y0) - dy * (ring[i] - x0);
      // Where an edge crosses the line, and where a corner lies on it.
      for (const t of a > 0 !== b > 0 ? [a / (a - b), 1] : [1]) {
        const [px, py] = [
          ring[j] + t * (ring[i] - ring[j]) - x0,
          ring[j + 1] + t * (ring[i + 1] - ring[j + 1]) - y0,
        ];
        const share = (px * dx + py * dy) / (dx * dx + dy * dy);
        if (share > 0 && share < 1) shares.push(share);
      }
    }
  shares.sort((p, q) => p - q);
  let on = 0;
  for (let i = 0; i + 1 < shares.length; i++) {
    const middle = (shares[i] + shares[i + 1]) / 2;
    const place = [x0 + middle * dx, y0 + middle * dy] as const;
    if (outsideOf(outline, place) > NEAR || holes.some((hole) => outsideOf(hole, place) < -NEAR)) continue;
    on += shares[i + 1] - shares[i];
  }
  return on;
}
