import { cutByLine, ROW, stretches, TOUCH } from './cut.js';
import type { Polygon } from './polygon.js';

/** How two panels cross. Lengths in mm, the angle in radians. */
export interface Crossing {
  /** Least of both pokes and of the shift along the common line: the way to the nearest freedom. */
  depth: number;
  /** The same with each poke times the sine of the angle: how far card must bend out of its plane. */
  push: number;
  /** Between the two planes, 0 to π/2. */
  angle: number;
  /** The place of the catch in the plane of the first panel, and in that of the second. */
  ax: number;
  ay: number;
  bx: number;
  by: number;
}

/** Room for a result, to be made once and used again. */
export const newCrossing = (): Crossing => ({ depth: 0, push: 0, angle: 0, ax: 0, ay: 0, bx: 0, by: 0 });

const lineA = new Float64Array(6);
const lineB = new Float64Array(6);
/** Least and greatest height of a panel's corners over another panel's plane, mm; + on its normal's side. */
const extent = { min: 0, max: 0 };
const cutA = stretches();
const cutB = stretches();

/**
 * Whether panel a, in pose `ka`, and panel b, in pose `kb`, cross; if so `out` says how, else it is left as it was.
 *
 * `poses` holds twelve numbers a panel, row by row: r11 r12 r13 tx r21 r22 r23 ty r31 r32 r33 tz. A panel's plane
 * holds its t, and its normal is the third column.
 *
 * Each panel is cut by the common line of the two planes. Wherever a stretch of the line with card of a on both
 * sides and one of b overlap, the panels cross. Of the parts of a beside its stretch, the lesser reach from the line is
 * the poke of a; likewise b; and the shift is what would part the two stretches along the line.
 *   depth = min(poke a, poke b, shift)      push = min(poke a · sin, poke b · sin, shift)
 * Of several such places the one of the greatest push is told, of equal ones the deepest.
 *
 * The place of the catch: when a poke is the least, the poking panel's is the farthest point of that poke (the
 * middle of the far edge, when that is level), and the other's is the middle of the shared stretch, where it is
 * pierced. When the shift is the least, it is the middle of the shared stretch on both.
 *
 * Panels that only touch (an edge or corner in the other's plane, a shared crease, a shared corner) do not cross:
 * corners within TOUCH of the other plane lie in it, and a shift under TOUCH is none. So panels in parallel planes
 * don't cross either: no corners are on both sides.
 * Makes no objects: its scratch is used again.
 */
export function crossing(
  a: Polygon,
  b: Polygon,
  poses: Float64Array,
  ka: number,
  kb: number,
  out: Crossing,
): boolean {
  heightAbove(poses, ka, kb, lineA);
  findExtent(a.outline, lineA);
  if (extent.min >= -TOUCH || extent.max <= TOUCH) return false;
  heightAbove(poses, kb, ka, lineB);
  findExtent(b.outline, lineB);
  if (extent.min >= -TOUCH || extent.max <= TOUCH) return false;

  placeAlong(poses, ka, kb);
  cutByLine(a, lineA, cutA);
  cutByLine(b, lineB, cutB);
  return deepest(Math.sqrt(lineA[0] * lineA[0] + lineA[1] * lineA[1]), cosine(poses, ka, kb), out);
}

/**
 * The height of panel k's point (x, y) above the plane of panel m: with n the normal and s the origin of m,
 * n · (R (x, y, 0) + t − s) = p x + q y + r.
 */
function heightAbove(poses: Float64Array, k: number, m: number, line: Float64Array): void {
  const i = 12 * k;
  const j = 12 * m;
  const nx = poses[j + 2];
  const ny = poses[j + 6];
  const nz = poses[j + 10];
  line[0] = nx * poses[i] + ny * poses[i + 4] + nz * poses[i + 8];
  line[1] = nx * poses[i + 1] + ny * poses[i + 5] + nz * poses[i + 9];
  line[2] =
    nx * (poses[i + 3] - poses[j + 3]) +
    ny * (poses[i + 7] - poses[j + 7]) +
    nz * (poses[i + 11] - poses[j + 11]);
}

function findExtent(ring: Float64Array, line: Float64Array): void {
  const p = line[0];
  const q = line[1];
  const r = line[2];
  let min = Infinity;
  let max = -Infinity;
  for (let i = 0; i < ring.length; i += 2) {
    const height = p * ring[i] + q * ring[i + 1] + r;
    if (height < min) min = height;
    if (height > max) max = height;
  }
  extent.min = min;
  extent.max = max;
}

function cosine(poses: Float64Array, ka: number, kb: number): number {
  const i = 12 * ka;
  const j = 12 * kb;
  return Math.abs(poses[i + 2] * poses[j + 2] + poses[i + 6] * poses[j + 6] + poses[i + 10] * poses[j + 10]);
}

/**
 * Gives both lines the place along u = nA × nB / |nA × nB|, counted from the origin of b.
 *
 * In a's own axes nB is (p, q, ·) and nA is (0, 0, 1), so nA × nB = (−q, p, 0) and |nA × nB| = |(p, q)| is the
 * sine of the angle. In b's, with nA as (p', q', ·), it is (q', −p', 0).
 */
function placeAlong(poses: Float64Array, ka: number, kb: number): void {
  const sineA = Math.sqrt(lineA[0] * lineA[0] + lineA[1] * lineA[1]);
  const sineB = Math.sqrt(lineB[0] * lineB[0] + lineB[1] * lineB[1]);
  const u = -lineA[1] / sineA;
  const v = lineA[0] / sineA;
  const i = 12 * ka;
  const j = 12 * kb;
  lineA[3] = u;
  lineA[4] = v;
  // u · (tA − tB), with u turned into the world by the first two columns of a's pose.
  lineA[5] =
    (u * poses[i] + v * poses[i + 1]) * (poses[i + 3] - poses[j + 3]) +
    (u * poses[i + 4] + v * poses[i + 5]) * (poses[i + 7] - poses[j + 7]) +
    (u * poses[i + 8] + v * poses[i + 9]) * (poses[i + 11] - poses[j + 11]);
  lineB[3] = lineB[1] / sineB;
  lineB[4] = -lineB[0] / sineB;
  lineB[5] = 0;
}

/** Of all places where a stretch of `cutA` overlaps one of `cutB`, puts the one of the greatest push into `out`. */
function deepest(sine: number, cosine: number, out: Crossing): boolean {
  let found = false;
  for (let i = 0; i < cutA.count * ROW; i += ROW) {
    for (let j = 0; j < cutB.count * ROW; j += ROW) {
      const a = cutA.rows;
      const b = cutB.rows;
      const shift = Math.min(a[i + 1] - b[j], b[j + 1] - a[i]);
      if (shift <= TOUCH) continue;
      const heightA = a[i + 2];
      const heightB = b[j + 2];
      const poke = Math.min(heightA, heightB);
      const push = Math.min(poke, shift);
      const depth = Math.min(poke / sine, shift);
      if (found && (push < out.push || (push === out.push && depth <= out.depth))) continue;
      found = true;
      out.push = push;
      out.depth = depth;
      const middle = (Math.max(a[i], b[j]) + Math.min(a[i + 1], b[j + 1])) / 2;
      const pokes = poke / sine <= shift;
      if (pokes && heightA <= heightB) {
        out.ax = a[i + 3];
        out.ay = a[i + 4];
      } else {
        out.ax = pointX(lineA, sine, middle);
        out.ay = pointY(lineA, sine, middle);
      }
      if (pokes && heightB < heightA) {
        out.bx = b[j + 3];
        out.by = b[j + 4];
      } else {
        out.bx = pointX(lineB, sine, middle);
        out.by = pointY(lineB, sine, middle);
      }
    }
  }
  if (found) out.angle = Math.atan2(sine, cosine);
  return found;
}

/** The point of the line at a place along it: (u, v) from the origin by place − w, (p, q)/sine by −r/sine. */
function pointX(line: Float64Array, sine: number, place: number): number {
  return (place - line[5]) * line[3] - (line[2] / (sine * sine)) * line[0];
}

function pointY(line: Float64Array, sine: number, place: number): number {
  return (place - line[5]) * line[4] - (line[2] / (sine * sine)) * line[1];
}
