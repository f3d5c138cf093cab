import { holds, type Shape } from './polygon.js';

/** Edges of one outline that come nearer than this, mm, are taken to touch. */
export const TOUCHING = 1e-6;

/** Where a shape is no proper panel, in its own plane, and why. */
export interface Fault {
  readonly x: number;
  readonly y: number;
  readonly why: string;
}

/**
 * The first place where a shape breaks the promise of `Shape`: a corner that is no number, fewer than three
 * corners, an edge of no length, an edge that folds back on the one before, edges that meet, a hole outside its
 * outline or in another hole. `undefined` when it is sound. Compares every edge with every other: O(n²).
 */
export function faultOf(shape: Shape): Fault | undefined {
  const rings = [shape.outline, ...shape.holes];
  for (const ring of rings) {
    const fault = faultOfRing(ring);
    if (fault) return fault;
  }
  for (let a = 0; a < rings.length; a++) {
    for (let b = a + 1; b < rings.length; b++) {
      const fault = a === 0 ? faultOfHole(rings[a], rings[b]) : faultBetweenHoles(rings[a], rings[b]);
      if (fault) return fault;
    }
  }
  return undefined;
}

function faultOfRing(ring: Float64Array): Fault | undefined {
  const n = ring.length / 2;
  for (let i = 0; i < ring.length; i++) {
    if (!Number.isFinite(ring[i]))
      return { x: 0, y: 0, why: `corner ${Math.floor(i / 2) + 1} is not a number` };
  }
  if (n < 3) return { x: ring[0] ?? 0, y: ring[1] ?? 0, why: 'fewer than three corners' };
  for (let i = 0; i < n; i++) {
    const [x, y, dx, dy] = edgeOf(ring, i);
    if (Math.hypot(dx, dy) < TOUCHING) return { x, y, why: 'an edge of no length' };
  }
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    const [x, y] = [ring[2 * j], ring[2 * j + 1]];
    // The far end of either edge on the other edge: the outline runs back over itself.
    const k = (j + 1) % n;
    const back =
      gap(ring[2 * k], ring[2 * k + 1], ring, i) < TOUCHING ||
      gap(ring[2 * i], ring[2 * i + 1], ring, j) < TOUCHING;
    if (back) return { x, y, why: 'an edge folds back on the one before' };
  }
  for (let i = 0; i < n; i++) {
    for (let j = i + 2; j < n; j++) {
      if (i === 0 && j === n - 1) continue; // neighbours round the end
      const at = meeting(ring, i, ring, j);
      if (at) return { x: at[0], y: at[1], why: 'the outline meets itself' };
    }
  }
  return undefined;
}

function faultOfHole(outline: Float64Array, hole: Float64Array): Fault | undefined {
  const at = firstMeeting(outline, hole);
  if (at) return { x: at[0], y: at[1], why: 'a hole meets the outline' };
  if (holds({ outline, holes: [] }, hole[0], hole[1])) return undefined;
  return { x: hole[0], y: hole[1], why: 'a hole lies outside the outline' };
}

function faultBetweenHoles(a: Float64Array, b: Float64Array): Fault | undefined {
  const at = firstMeeting(a, b);
  if (at) return { x: at[0], y: at[1], why: 'two holes meet' };
  if (holds({ outline: a, holes: [] }, b[0], b[1]))
    return { x: b[0], y: b[1], why: 'a hole lies in another' };
  if (holds({ outline: b, holes: [] }, a[0], a[1]))
    return { x: a[0], y: a[1], why: 'a hole lies in another' };
  return undefined;
}

function firstMeeting(a: Float64Array, b: Float64Array): [number, number] | undefined {
  for (let i = 0; i < a.length / 2; i++) {
    for (let j = 0; j < b.length / 2; j++) {
      const at = meeting(a, i, b, j);
      if (at) return at;
    }
  }
  return undefined;
}

/** Where edge i of ring a and edge j of ring b cross or touch. */
function meeting(a: Float64Array, i: number, b: Float64Array, j: number): [number, number] | undefined {
  const ends = [
    [a, i, b, j],
    [a, i + 1, b, j],
    [b, j, a, i],
    [b, j + 1, a, i],
  ] as const;
  for (const [ring, corner, other, edge] of ends) {
    const c = (2 * corner) % ring.length;
    if (gap(ring[c], ring[c + 1], other, edge) < TOUCHING) return [ring[c], ring[c + 1]];
  }
  // p + s u = q + t v, by the cross products with v and u.
  const [px, py, ux, uy] = edgeOf(a, i);
  const [qx, qy, vx, vy] = edgeOf(b, j);
  const turn = ux * vy - uy * vx;
  if (turn === 0) return undefined; // parallel, and the ends don't touch
  const s = ((qx - px) * vy - (qy - py) * vx) / turn;
  const t = ((qx - px) * uy - (qy - py) * ux) / turn;
  return s >= 0 && s <= 1 && t >= 0 && t <= 1 ? [px + s * ux, py + s * uy] : undefined;
}

/** Distance from a point to edge i of a ring. */
function gap(x: number, y: number, ring: Float64Array, i: number): number {
  const [px, py, ux, uy] = edgeOf(ring, i);
  const along = ((x - px) * ux + (y - py) * uy) / (ux * ux + uy * uy);
  const s = Math.min(1, Math.max(0, along));
  return Math.hypot(x - px - s * ux, y - py - s * uy);
}

/** Start and run of edge i of a ring. */
function edgeOf(ring: Float64Array, i: number): [number, number, number, number] {
  const from = 2 * i;
  const to = (from + 2) % ring.length;
  return [ring[from], ring[from + 1], ring[to] - ring[from], ring[to + 1] - ring[from + 1]];
}
