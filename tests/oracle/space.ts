/** Points and directions in space, and where three spheres meet: all that the oracle places card with. */
export type P2 = readonly [number, number];
export type V3 = readonly [number, number, number];

export const RAD = Math.PI / 180;
export const add = (a: V3, b: V3, k = 1): V3 => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];
export const sub = (a: V3, b: V3): V3 => add(a, b, -1);
export const times = (a: V3, k: number): V3 => [k * a[0], k * a[1], k * a[2]];
export const dot = (a: V3, b: V3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: V3, b: V3): V3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const size = (a: V3): number => Math.sqrt(dot(a, a));
export const unit = (a: V3): V3 => times(a, 1 / size(a));
export const far = (a: V3, b: V3): number => size(sub(a, b));

/** The plane of a panel: where its (0, 0) lies, and where its *along* and *up* run. */
export interface Frame {
  o: V3;
  u: V3;
  v: V3;
}
export const at = ({ o, u, v }: Frame, [x, y]: P2): V3 => add(add(o, u, x), v, y);
export const within = ({ o, u, v }: Frame, p: V3): P2 => [dot(sub(p, o), u), dot(sub(p, o), v)];
export const normal = ({ u, v }: Frame): V3 => cross(u, v);

/** A direction at an angle (degrees) from one towards another that is square to it. */
export const turned = (from: V3, towards: V3, degrees: number): V3 =>
  add(times(from, Math.cos(degrees * RAD)), towards, Math.sin(degrees * RAD));

/** What is left of b once what runs along the unit vector a is taken off, at length 1. */
export const squareTo = (a: V3, b: V3): V3 => unit(add(b, a, -dot(a, b)));

/** Three spheres: the two points where they meet are `foot` ± √`height2` · `up`, with `up` = (b − a) × (c − a). Null where
 *  the three middles lie on one line. */
export function spheresMeet(
  a: V3,
  b: V3,
  c: V3,
  ra: number,
  rb: number,
  rc: number,
): { foot: V3; up: V3; height2: number } | null {
  const ab = sub(b, a);
  const ac = sub(c, a);
  const across = cross(ab, ac);
  if (size(across) < 1e-6 * Math.max(size(ab), 1e-9) * Math.max(size(ac), 1) || size(ac) < 1e-6) return null;
  const ex = unit(ab);
  const ey = squareTo(ex, ac);
  const [d, i, j] = [size(ab), dot(ac, ex), dot(ac, ey)];
  const x = (ra * ra - rb * rb + d * d) / (2 * d);
  const y = (ra * ra - rc * rc + i * i + j * j - 2 * i * x) / (2 * j);
  return { foot: add(add(a, ex, x), ey, y), up: unit(across), height2: ra * ra - x * x - y * y };
}

/** Numbers from 0 to 1, the same for the same seed (mulberry32). */
export function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
