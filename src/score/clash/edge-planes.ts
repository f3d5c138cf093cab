import { numbers } from '../../geometry/numbers.js';
import { POSE } from '../../motion/pose.js';

/** Numbers of one edge line: a point of it, and the unit direction in its plane away from the hull. */
const EDGE = 4;

/**
 * The lines along which a plane may stand that leaves a whole hull on one side: its edges; or, given a point of the
 * plane, the lines from there that touch the hull.
 */
export function edgesOf(hull: Float64Array, point: readonly [number, number] | null): Float64Array {
  const edges: number[] = [];
  const n = hull.length;
  for (let i = 0; i < n; i += 2) {
    const j = (i + 2) % n;
    if (point === null) addLine(edges, hull, hull[i], hull[i + 1], hull[j], hull[j + 1]);
    else addLine(edges, hull, point[0], point[1], hull[i], hull[i + 1]);
  }
  return numbers(edges);
}

/** Corners this near to a line, mm, lie on it. */
const ON_LINE = 1e-6;

/** Adds the line through two points if the hull lies on one side of it. */
function addLine(edges: number[], hull: Float64Array, x0: number, y0: number, x1: number, y1: number): void {
  const long = Math.hypot(x1 - x0, y1 - y0);
  if (long < 1e-4) return;
  const [nx, ny] = [(y0 - y1) / long, (x1 - x0) / long];
  let [least, most] = [Infinity, -Infinity];
  for (let i = 0; i < hull.length; i += 2) {
    const off = (hull[i] - x0) * nx + (hull[i + 1] - y0) * ny;
    least = Math.min(least, off);
    most = Math.max(most, off);
  }
  if (most <= ON_LINE) edges.push(x0, y0, nx, ny);
  else if (least >= -ON_LINE) edges.push(x0, y0, -nx, -ny);
}

let seen = new Float64Array(64);
let before = new Float64Array(64);
const NOWHERE = new Float64Array(3);
/**
 * A plane through an edge of a hull, fixed to the body: the edge's place among `edges`, and the plane's unit normal by
 * its parts outwards and up. `gap` is the weighted distance of the nearest corner of the other body beyond it.
 */
export interface EdgePlane {
  edge: number;
  out: number;
  up: number;
  gap: number;
}

export const newEdgePlane = (): EdgePlane => ({ edge: -1, out: 0, up: 0, gap: 0 });

/**
 * Looks for a plane through an edge of one body, fixed to that body, that has another body beyond it at two page
 * angles. The one given is tried first; another is chosen at the first page angle: of all edges, the one past which the
 * corners fit into the narrowest angle, and in its middle.
 * @param corners x, y and weight of the other body's corners (see `BodyPair`)
 * @param moving,fixed panels whose poses are those of the other body and of the first
 * @param there,then how the other body is moved at the two page angles, times `sign`
 * @param enough the gap that will do
 * @param plane `gap` will be the lesser of its gaps at the two page angles; 0 where there is no plane at the first
 */
export function findEdgePlane(
  corners: Float64Array,
  moving: number,
  fixed: number,
  edges: Float64Array,
  first: Float64Array,
  second: Float64Array,
  there: Float64Array,
  then: Float64Array,
  sign: 1 | -1,
  enough: number,
  plane: EdgePlane,
): void {
  const { length } = corners;
  see(corners, first, moving * POSE, fixed * POSE, there, sign);
  if (plane.edge >= 0 && gapTo(length, edges, plane) > enough) {
    const gap = plane.gap;
    see(corners, second, moving * POSE, fixed * POSE, then, sign);
    plane.gap = Math.min(gap, gapTo(length, edges, plane));
    if (plane.gap > enough) return;
    see(corners, first, moving * POSE, fixed * POSE, there, sign);
  }
  plane.gap = 0;
  for (let e = 0; e < edges.length; e += EDGE) choose(length, edges, e, plane);
  if (plane.gap <= 0) return;
  see(corners, second, moving * POSE, fixed * POSE, then, sign);
  const gap = plane.gap;
  plane.gap = Math.min(gap, gapTo(length, edges, plane));
}

/** Puts the corners, moved by `sign` times `way`, into `seen` as the first body sees them: x, y, height, weight. */
function see(
  corners: Float64Array,
  poses: Float64Array,
  i: number,
  j: number,
  way: Float64Array,
  sign: 1 | -1,
): void {
  if (seen.length < 2 * corners.length) seen = new Float64Array(2 * corners.length);
  for (let axis = 0; axis < 3; axis++) {
    const nx = poses[j + axis];
    const ny = poses[j + 4 + axis];
    const nz = poses[j + 8 + axis];
    const px = nx * poses[i] + ny * poses[i + 4] + nz * poses[i + 8];
    const py = nx * poses[i + 1] + ny * poses[i + 5] + nz * poses[i + 9];
    const p0 =
      nx * (poses[i + 3] - poses[j + 3] + sign * way[0]) +
      ny * (poses[i + 7] - poses[j + 7] + sign * way[1]) +
      nz * (poses[i + 11] - poses[j + 11] + sign * way[2]);
    for (let c = 0, k = axis; c < corners.length; c += 3, k += 4)
      seen[k] = px * corners[c] + py * corners[c + 1] + p0;
  }
  for (let c = 0, k = 3; c < corners.length; c += 3, k += 4) seen[k] = corners[c + 2];
}

/** The longest way, mm, that a corner of one body moves in the frame of another from one page angle to a second. */
export function longestChord(
  corners: Float64Array,
  moving: number,
  fixed: number,
  first: Float64Array,
  second: Float64Array,
): number {
  see(corners, first, moving * POSE, fixed * POSE, NOWHERE, 1);
  if (before.length < seen.length) before = new Float64Array(seen.length);
  before.set(seen);
  see(corners, second, moving * POSE, fixed * POSE, NOWHERE, 1);
  let squared = 0;
  for (let c = 0, k = 0; c < corners.length; c += 3, k += 4) {
    const dx = seen[k] - before[k];
    const dy = seen[k + 1] - before[k + 1];
    const dz = seen[k + 2] - before[k + 2];
    squared = Math.max(squared, dx * dx + dy * dy + dz * dz);
  }
  return Math.sqrt(squared);
}

const tried = newEdgePlane();

/** Keeps the best plane through one edge, if it is better than the one given. */
function choose(length: number, edges: Float64Array, e: number, plane: EdgePlane): void {
  let least = Infinity;
  let most = -Infinity;
  let lowOut = 0;
  let lowUp = 0;
  let highOut = 0;
  let highUp = 0;
  for (let c = 0, k = 0; c < length; c += 3, k += 4) {
    const out = (seen[k] - edges[e]) * edges[e + 2] + (seen[k + 1] - edges[e + 1]) * edges[e + 3];
    const up = seen[k + 2];
    // Grows with the angle from outwards towards up, as atan2(up, out) does, from −2 to 2.
    const share = up / (Math.abs(out) + Math.abs(up) + 1e-300);
    const turn = out >= 0 ? share : up >= 0 ? 2 - share : -2 - share;
    if (turn < least) {
      least = turn;
      lowOut = out;
      lowUp = up;
    }
    if (turn > most) {
      most = turn;
      highOut = out;
      highUp = up;
    }
  }
  const low = Math.atan2(lowUp, lowOut);
  const high = Math.atan2(highUp, highOut);
  // The body itself lies at ±180°. A plane square to the middle of the corners' angles must leave it behind.
  const middle = (low + high) / 2;
  if (high - low >= Math.PI || Math.abs(middle) > Math.PI / 2) return;
  tried.edge = e;
  tried.out = Math.cos(middle);
  tried.up = Math.sin(middle);
  if (gapTo(length, edges, tried) <= plane.gap) return;
  plane.edge = e;
  plane.out = tried.out;
  plane.up = tried.up;
  plane.gap = tried.gap;
}

/** Finds how far the seen corners lie beyond a plane, and keeps it there. */
function gapTo(length: number, edges: Float64Array, plane: EdgePlane): number {
  const { edge: e, up } = plane;
  const px = plane.out * edges[e + 2];
  const py = plane.out * edges[e + 3];
  const p0 = px * edges[e] + py * edges[e + 1];
  let gap = Infinity;
  for (let c = 0, k = 0; c < length; c += 3, k += 4) {
    const beyond = (px * seen[k] + py * seen[k + 1] + up * seen[k + 2] - p0) * seen[k + 3];
    if (beyond < gap) gap = beyond;
  }
  plane.gap = gap;
  return gap;
}
