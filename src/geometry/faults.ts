import type { Box } from './plane.js';
import { holds, type Polygon } from './polygon.js';

/** Edges of one outline that come nearer than this, mm, are taken to touch. */
export const TOUCHING = 1e-6;

/** Why, where edges of one ring meet. */
export const MEETS_ITSELF = 'the outline meets itself';

/** Where a shape is no proper panel, in its own plane, and why. */
export interface Fault {
  readonly x: number;
  readonly y: number;
  readonly why: string;
}

/**
 * A place where a shape breaks the promise of `Polygon`: a corner that is no number, fewer than three corners, an edge
 * of no length, an edge that folds back on the one before, edges that meet, a hole outside its outline or in another
 * hole. `undefined` when it is sound.
 *
 * Edges are swept from left to right (Shamos and Hoey's idea, without their tree): each is compared with those that
 * begin before it ends. That is near to linear for outlines as they are drawn; at worst, hatched all over, every edge
 * passes every other by two quick tests.
 */
export function faultOf(shape: Polygon): Fault | undefined {
  const rings = [shape.outline, ...shape.holes];
  for (const ring of rings) {
    const fault = faultOfRing(ring);
    if (fault) return fault;
  }
  const fault = faultOfMeeting(rings.flatMap(edgesOf), shape.outline);
  if (fault) return fault;
  for (const hole of shape.holes) {
    const fault = faultOfPlace(shape, hole);
    if (fault) return fault;
  }
  return undefined;
}

/** The same for one more hole in a sound shape: whether it may be cut there. Looks only at edges near the hole. */
export function faultOfHole(shape: Polygon, hole: Float64Array): Fault | undefined {
  const fault = faultOfRing(hole);
  if (fault) return fault;
  return (
    faultOfMeeting([...edgesNear(shape, hole), ...edgesOf(hole)], shape.outline) ?? faultOfPlace(shape, hole)
  );
}

/** The same for a shape that was sound before a notch was cut into its outline. Looks only at edges near the notch. */
export function faultOfNotch(shape: Polygon, notch: Float64Array): Fault | undefined {
  const fault = faultOfMeeting(edgesNear(shape, notch), shape.outline);
  if (fault) return fault;
  for (const hole of shape.holes) {
    const outside = faultOfPlace(shape, hole);
    if (outside) return outside;
  }
  return undefined;
}

/** Edges of a shape within reach of the box around a ring. */
function edgesNear({ outline, holes }: Polygon, ring: Float64Array): Edge[] {
  const own = edgesOf(ring);
  const box = {
    left: Math.min(...own.map((e) => e.left)),
    right: Math.max(...own.map((e) => e.right)),
    low: Math.min(...own.map((e) => e.low)),
    high: Math.max(...own.map((e) => e.high)),
  };
  return [outline, ...holes].flatMap(edgesOf).filter((edge) => reach(edge, box));
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
  return undefined;
}

/** Where a hole lies that meets nothing: outside the outline, or in or around another hole. */
function faultOfPlace({ outline, holes }: Polygon, hole: Float64Array): Fault | undefined {
  const [x, y] = hole;
  if (!holds({ outline, holes: [] }, x, y)) return { x, y, why: 'a hole lies outside the outline' };
  for (const other of holes) {
    if (other === hole) continue;
    if (holds({ outline: other, holes: [] }, x, y)) return { x, y, why: 'a hole lies in another' };
    if (holds({ outline: hole, holes: [] }, other[0], other[1]))
      return { x: other[0], y: other[1], why: 'a hole lies in another' };
  }
  return undefined;
}

/** Edge i of a ring, its start and run, and the box around it. */
interface Edge extends Box {
  readonly ring: Float64Array;
  readonly i: number;
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
}

function edgesOf(ring: Float64Array): Edge[] {
  return Array.from({ length: ring.length / 2 }, (_, i) => {
    const [x, y, dx, dy] = edgeOf(ring, i);
    return {
      ring,
      i,
      x,
      y,
      dx,
      dy,
      left: Math.min(x, x + dx),
      right: Math.max(x, x + dx),
      low: Math.min(y, y + dy),
      high: Math.max(y, y + dy),
    };
  });
}

const reach = (a: Box, b: Box): boolean =>
  b.left <= a.right + TOUCHING &&
  a.left <= b.right + TOUCHING &&
  b.low <= a.high + TOUCHING &&
  a.low <= b.high + TOUCHING;

function faultOfMeeting(edges: Edge[], outline: Float64Array): Fault | undefined {
  edges.sort((a, b) => a.left - b.left);
  for (let k = 0; k < edges.length; k++) {
    const a = edges[k];
    for (let m = k + 1; m < edges.length && edges[m].left <= a.right + TOUCHING; m++) {
      const b = edges[m];
      if (!reach(a, b) || areNeighbours(a, b) || lieApart(a, b) || lieApart(b, a)) continue;
      const at = meeting(a.ring, a.i, b.ring, b.i);
      if (at === undefined) continue;
      const [x, y] = at;
      if (a.ring === b.ring) return { x, y, why: MEETS_ITSELF };
      return {
        x,
        y,
        why: a.ring === outline || b.ring === outline ? 'a hole meets the outline' : 'two holes meet',
      };
    }
  }
  return undefined;
}

function areNeighbours(a: Edge, b: Edge): boolean {
  if (a.ring !== b.ring) return false;
  const steps = Math.abs(a.i - b.i);
  return steps === 1 || steps === a.ring.length / 2 - 1;
}

/** Whether all of edge b lies to one side of edge a's line, clear of it. */
function lieApart(a: Edge, b: Edge): boolean {
  const from = a.dx * (b.y - a.y) - a.dy * (b.x - a.x);
  const to = from + a.dx * b.dy - a.dy * b.dx;
  const clear = TOUCHING * Math.sqrt(a.dx * a.dx + a.dy * a.dy);
  return Math.min(from, to) > clear || Math.max(from, to) < -clear;
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
