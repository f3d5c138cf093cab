import { zeros } from './numbers.js';

/**
 * What of a ring lies within a convex ring (Sutherland and Hodgman 1974): cut by each edge in turn, so that new corners
 * lie on the edges but for round-off. Empty where nothing does.
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
