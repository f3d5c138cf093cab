import { zeros } from './numbers.js';

/** A corner that turns by less than this, radians, is none; one that turns in by more makes a ring no convex one. */
const SLIGHT = 1e-9;

/** The largest disc in a ring: its middle and radius, mm. */
export interface Disc {
  readonly at: [number, number];
  readonly radius: number;
}

/**
 * The largest disc in a convex ring that runs counter-clockwise, exact but for round-off; null where the ring is not convex.
 *
 * All edges move inwards at one speed. An edge of length l between corners that turn by a and b is l − r (tan a/2 + tan b/2)
 * long after r mm. The first to reach no length is taken out, and its two corners become one that turns by a + b. Where that
 * is half a turn or more, its neighbours have met: nothing is left, and r is the radius. (For convex rings this is how the
 * straight skeleton grows, and it is the medial axis: Aichholzer, Aurenhammer, Alberts and Gärtner 1995, from memory.)
 */
export function discInConvex(ring: Float64Array): Disc | null {
  const edges = edgesOf(ring);
  if (edges === null) return null;
  const { count, angle, length } = edges;
  const [before, after] = [new Int32Array(count), new Int32Array(count)];
  // What the corner before an edge turns by, and half of it as a slope.
  const [turn, slope] = [zeros(count), zeros(count)];
  for (let i = 0; i < count; i++) {
    [before[i], after[i]] = [(i + count - 1) % count, (i + 1) % count];
    turn[i] = turned(angle[before[i]], angle[i]);
    slope[i] = Math.tan(turn[i] / 2);
  }
  let radius = 0;
  for (let first = 0, left = count; left > 2; left--) {
    let least = Infinity;
    let gone = first;
    for (let k = 0, i = first; k < left; k++, i = after[i]) {
      const until = length[i] / (slope[i] + slope[after[i]]);
      if (until < least) [least, gone] = [until, i];
    }
    radius += least;
    const [p, q] = [before[gone], after[gone]];
    const both = turn[gone] + turn[q];
    if (left === 3 || both >= Math.PI - SLIGHT)
      return { at: middle(edges, gone, turn[gone], p, q, radius), radius };
    for (let k = 0, i = first; k < left; k++, i = after[i])
      length[i] = Math.max(0, length[i] - least * (slope[i] + slope[after[i]]));
    [after[p], before[q], turn[q], slope[q]] = [q, p, both, Math.tan(both / 2)];
    first = q;
  }
  return null;
}

interface Edges {
  readonly count: number;
  /** Where each begins, which way it runs, radians, and its length, mm. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly angle: Float64Array;
  readonly length: Float64Array;
}

/** The edges of a convex ring, those in one line as one; null where it turns in anywhere, or is no ring. */
function edgesOf(ring: Float64Array): Edges | null {
  const n = ring.length / 2;
  let count = 0;
  let total = 0;
  const [x, y, angle, length] = [zeros(n), zeros(n), zeros(n), zeros(n)];
  for (let i = 0, j = n - 1; i < n; j = i++) {
    const [dx, dy] = [ring[2 * i] - ring[2 * j], ring[2 * i + 1] - ring[2 * j + 1]];
    if (dx === 0 && dy === 0) continue;
    const way = Math.atan2(dy, dx);
    if (count > 0) {
      const by = turned(angle[count - 1], way);
      if (by < -SLIGHT) return null;
      total += by;
      if (by < SLIGHT) {
        length[count - 1] += Math.hypot(dx, dy);
        continue;
      }
    }
    [x[count], y[count], angle[count], length[count]] = [
      ring[2 * j],
      ring[2 * j + 1],
      way,
      Math.hypot(dx, dy),
    ];
    count++;
  }
  if (count < 3) return null;
  const last = turned(angle[count - 1], angle[0]);
  if (last < SLIGHT) {
    // The first edge goes on the last one: either the ring turns in here, or both are one edge.
    if (last < -SLIGHT) return null;
    length[count - 1] += length[0];
    for (const list of [x, y, angle, length]) list.copyWithin(0, 1, count);
    count--;
  }
  // A ring that winds twice turns nowhere in, either.
  return count >= 3 && Math.abs(total + last - 2 * Math.PI) < 1e-6 ? { count, x, y, angle, length } : null;
}

/** By how much one turns left from one way to another, from −π to π. */
function turned(from: number, to: number): number {
  const by = to - from;
  return by > Math.PI ? by - 2 * Math.PI : by <= -Math.PI ? by + 2 * Math.PI : by;
}

/** The point that is as far from an edge as from one of its neighbours, whichever crosses it at the better angle. */
function middle(
  { x, y, angle }: Edges,
  e: number,
  turn: number,
  p: number,
  q: number,
  radius: number,
): [number, number] {
  const other = Math.abs(Math.sin(turn)) > Math.abs(Math.sin(turned(angle[e], angle[q]))) ? p : q;
  const [ux, uy, vx, vy] = [
    Math.cos(angle[e]),
    Math.sin(angle[e]),
    Math.cos(angle[other]),
    Math.sin(angle[other]),
  ];
  // Inwards of an edge that runs along u is (−u.y, u.x).
  const [a, b] = [ux * y[e] - uy * x[e] + radius, vx * y[other] - vy * x[other] + radius];
  const across = ux * vy - uy * vx;
  return [(vx * a - ux * b) / across, (vy * a - uy * b) / across];
}
