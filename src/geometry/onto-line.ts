import type { Line } from './line.js';

/** Corners that miss a crease by less than this, mm, lie on it: drawings are rounded, and no hand cuts so exactly. */
const NEAR = 0.02;
/** What is nearer than this lies on it already, but for round-off, mm. */
const ON = 1e-7;

/**
 * Moves those corners of a ring onto a stretch of a line that miss it by less than 0.02 mm; and onto its end where they
 * miss that by no more.
 * @param ring x, y pairs, mm, changed in place
 */
export function moveOntoLine(ring: Float64Array, { x0, y0, x1, y1 }: Line): void {
  const long = Math.hypot(x1 - x0, y1 - y0);
  if (!(long > 2 * NEAR)) return;
  const [ex, ey] = [(x1 - x0) / long, (y1 - y0) / long];
  for (let i = 0; i < ring.length; i += 2) {
    const [x, y] = [ring[i] - x0, ring[i + 1] - y0];
    const off = ex * y - ey * x;
    const along = ex * x + ey * y;
    if (Math.abs(off) > NEAR || along < -NEAR || along > long + NEAR) continue;
    const end = along < NEAR ? 0 : along > long - NEAR ? long : null;
    if (Math.abs(off) < ON && (end === null || Math.abs(along - end) < ON)) continue;
    const to = end ?? along;
    ring[i] = x0 + to * ex;
    ring[i + 1] = y0 + to * ey;
  }
}
