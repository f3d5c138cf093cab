import { numbers } from '../geometry/numbers.js';

/** Places nearer than this are one, mm. */
export const SAME_PLACE = 1e-6;

/** An outline with the triangle vertex–corner–end cut out of the edge that holds vertex and end; null if none does. */
export function notch(
  outline: Float64Array,
  vertex: readonly [number, number],
  corner: readonly [number, number],
  end: readonly [number, number],
): Float64Array | null {
  const n = outline.length / 2;
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    const [x0, y0, x1, y1] = [outline[2 * i], outline[2 * i + 1], outline[2 * j], outline[2 * j + 1]];
    const long = Math.hypot(x1 - x0, y1 - y0);
    if (long < SAME_PLACE) continue;
    const along = ([x, y]: readonly [number, number]) => ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / long;
    const off = ([x, y]: readonly [number, number]) => ((x - x0) * (y1 - y0) - (y - y0) * (x1 - x0)) / long;
    const v = along(vertex);
    const e = along(end);
    if (Math.abs(off(vertex)) > SAME_PLACE || Math.abs(off(end)) > SAME_PLACE) continue;
    if (Math.min(v, e) < -SAME_PLACE || Math.max(v, e) > long + SAME_PLACE) continue;
    const inserted = v < e ? [vertex, corner, end] : [end, corner, vertex];
    const ring: number[] = [];
    for (let k = 0; k < n; k++) {
      ring.push(outline[2 * k], outline[2 * k + 1]);
      if (k === i) for (const [x, y] of inserted) ring.push(x, y);
    }
    return withoutRepeats(ring);
  }
  return null;
}

function withoutRepeats(ring: number[]): Float64Array {
  const out: number[] = [];
  const n = ring.length / 2;
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    if (Math.hypot(ring[2 * i] - ring[2 * j], ring[2 * i + 1] - ring[2 * j + 1]) > SAME_PLACE)
      out.push(ring[2 * i], ring[2 * i + 1]);
  }
  return numbers(out);
}
