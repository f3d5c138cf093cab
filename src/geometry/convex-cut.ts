import type { Line } from './line.js';
import { zeros } from './numbers.js';

/**
 * What of a ring lies where a height is not negative, that grows evenly across its plane (Sutherland and Hodgman 1974). A
 * concave ring that falls apart keeps bridges along the line of no height, there and back: they have no area.
 * @param ring x, y pairs
 * @returns x, y pairs from the ring's own first corner on that stays; a corner on the line is not doubled
 */
export function cutToHeight(ring: ArrayLike<number>, height: (x: number, y: number) => number): number[] {
  const kept: number[] = [];
  for (let i = 0; i < ring.length; i += 2) {
    const j = (i + 2) % ring.length;
    const [here, next] = [height(ring[i], ring[i + 1]), height(ring[j], ring[j + 1])];
    if (here >= 0) kept.push(ring[i], ring[i + 1]);
    if (here > 0 === next > 0 || here === 0 || next === 0) continue;
    const t = here / (here - next);
    kept.push(ring[i] + t * (ring[j] - ring[i]), ring[i + 1] + t * (ring[j + 1] - ring[i + 1]));
  }
  return kept;
}

/**
 * What of a ring lies within a convex ring: cut by each edge in turn as by `cutToHeight`, but so that new corners lie on
 * edges of the axes to the last bit. Empty where nothing does.
 * @param ring x, y pairs, mm, counter-clockwise; one part of it within is taken for granted
 * @param within convex, counter-clockwise
 */
export function cutToConvex(ring: Float64Array, within: Float64Array): Float64Array {
  let left = Array.from(ring);
  for (let i = 0, j = within.length - 2; i < within.length; j = i, i += 2) {
    const [x0, y0] = [within[j], within[j + 1]];
    const [dx, dy] = [within[i] - x0, within[i + 1] - y0];
    const long = Math.hypot(dx, dy);
    if (long === 0) continue;
    const height = (x: number, y: number) => (dx * (y - y0) - dy * (x - x0)) / long;
    const kept: number[] = [];
    for (let v = 0, u = left.length - 2; v < left.length; u = v, v += 2) {
      const [ux, uy, vx, vy] = [left[u], left[u + 1], left[v], left[v + 1]];
      const [before, after] = [height(ux, uy), height(vx, vy)];
      if (before < 0 !== after < 0) {
        const t = before / (before - after);
        // Along an edge of the axes, the new corner lies on it to the last bit.
        kept.push(dx === 0 ? x0 : ux + t * (vx - ux), dy === 0 ? y0 : uy + t * (vy - uy));
      }
      if (after >= 0) kept.push(vx, vy);
    }
    left = kept;
  }
  const out = zeros(left.length);
  out.set(left);
  return out;
}

/**
 * What of a ring lies on one side of a line that goes on without end; empty where nothing does.
 * @param ring x, y pairs, mm, counter-clockwise; one part of it on that side is taken for granted
 * @param side 1 keeps what lies to the left of the line, −1 what lies to the right
 */
export function cutToSide(ring: Float64Array, { x0, y0, x1, y1 }: Line, side: 1 | -1): Float64Array {
  let far = 0;
  for (let i = 0; i < ring.length; i += 2) far = Math.max(far, Math.hypot(ring[i] - x0, ring[i + 1] - y0));
  const scale = (side * 2 * far) / Math.hypot(x1 - x0, y1 - y0);
  const [ax, ay] = [scale * (x1 - x0), scale * (y1 - y0)];
  return cutToConvex(
    ring,
    Float64Array.of(
      x0 - ax,
      y0 - ay,
      x0 + ax,
      y0 + ay,
      x0 + ax - ay,
      y0 + ay + ax,
      x0 - ax - ay,
      y0 - ay + ax,
    ),
  );
}
