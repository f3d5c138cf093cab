import polylabel from 'polylabel';
import { discInConvex } from './inscribed.js';
import { cardArea, type Polygon, signedArea } from './polygon.js';
import { nearestOnEdge, outsideOf } from './ring-distance.js';

/** To what the breadth of a shape that is not convex is found, mm; and of what is broad, to what share of it: it is never a matter of a hair. */
const FINE = 0.02;
const FINE_SHARE = 1 / 200;

/** The breadth of a shape, mm: the diameter of the largest disc in it; and the middle of that. Exact where it is convex. */
export function breadthOf({ outline, holes }: Polygon): { breadth: number; at: [number, number] } {
  const disc = holes.length === 0 ? discInConvex(outline) : null;
  if (disc !== null) return { breadth: 2 * disc.radius, at: disc.at };
  const rings = [outline, ...holes].map((ring) =>
    Array.from({ length: ring.length / 2 }, (_, i): [number, number] => [ring[2 * i], ring[2 * i + 1]]),
  );
  const found = polylabel(rings, Math.max(FINE, FINE_SHARE * leastBreadth({ outline, holes })) / 2);
  return { breadth: 2 * Math.max(0, found.distance), at: [found[0], found[1]] };
}

/**
 * What the breadth of a shape is at least, mm. No card is farther from an edge than the radius r of the largest disc: so
 * strips of breadth r along its edges cover it, with a sector at every corner that turns outwards from the card, as wide as it
 * turns: A ≤ P r + Σ turn r² / 2.
 */
export function leastBreadth({ outline, holes }: Polygon): number {
  const area = cardArea({ outline, holes });
  let around = 0;
  let turned = 0;
  for (const ring of [outline, ...holes])
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      around += Math.hypot(ring[i] - ring[j], ring[i + 1] - ring[j + 1]);
      turned += Math.max(0, (ring === outline ? -1 : Math.sign(signedArea(ring))) * turnAt(ring, i));
    }
  const half = turned / 2;
  if (half === 0) return (2 * area) / around;
  return (Math.sqrt(around * around + 4 * half * area) - around) / half;
}

/** By how much a ring turns left at corner i, radians. */
function turnAt(ring: Float64Array, i: number): number {
  const n = ring.length;
  const [px, py] = [ring[(i + n - 2) % n], ring[(i + n - 1) % n]];
  const [x, y] = [ring[i], ring[i + 1]];
  const [qx, qy] = [ring[(i + 2) % n], ring[(i + 3) % n]];
  const [ax, ay, bx, by] = [x - px, y - py, qx - x, qy - y];
  return Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
}

/** A place where card is narrow: mm across, and where. */
export interface NarrowPlace {
  readonly breadth: number;
  readonly at: readonly [number, number];
}

/** Turns of less than this, radians, are round-off. */
const SLIGHT = 1e-9;
/** Less card than this hanging on a neck, mm², is a snippet that nobody misses. */
const SNIPPET = 4;

/**
 * The narrowest neck of an outline, of which more than a snippet hangs on either side; null where it has none. One side of
 * a neck is a corner that turns outwards from the card: elsewhere card only tapers.
 */
export function narrowestNeck(outline: Float64Array): NarrowPlace | null {
  const n = outline.length;
  let least: NarrowPlace | null = null;
  for (let v = 0; v < n; v += 2) {
    if (turnAt(outline, v) > -SLIGHT) continue;
    const [x, y] = [outline[v], outline[v + 1]];
    for (let i = 0; i < n; i += 2) {
      const j = (i + 2) % n;
      if (i === v || j === v) continue;
      const [px, py] = nearestOnEdge(outline, i, j, x, y);
      const breadth = Math.hypot(px - x, py - y);
      if (least !== null && breadth >= least.breadth) continue;
      const at = [(x + px) / 2, (y + py) / 2] as const;
      if (breadth > 1e-6 && outsideOf(outline, at) > 0) continue;
      if (hangs(outline, v, i, px, py) > SNIPPET) least = { breadth, at };
    }
  }
  return least;
}

/** The lesser of the areas into which a chord from corner v to a point of the edge after corner i parts an outline. */
function hangs(ring: Float64Array, v: number, i: number, px: number, py: number): number {
  const n = ring.length;
  const [x, y] = [ring[v], ring[v + 1]];
  let part = 0;
  let whole = 0;
  let [ax, ay] = [0, 0];
  // From the corner on to the edge, then over the point back to the corner.
  for (let k = (v + 2) % n, inPart = true; k !== v; k = (k + 2) % n) {
    const [bx, by] = [ring[k] - x, ring[k + 1] - y];
    whole += ax * by - ay * bx;
    if (inPart) part += ax * by - ay * bx;
    if (k === i) {
      part += bx * (py - y) - by * (px - x);
      inPart = false;
    }
    [ax, ay] = [bx, by];
  }
  return Math.min(Math.abs(part), Math.abs(whole - part)) / 2;
}

/** How near two rings come to each other that do not meet, and where. */
export function betweenRings(one: Float64Array, other: Float64Array): NarrowPlace {
  let least: NarrowPlace = { breadth: Infinity, at: [0, 0] };
  for (const [a, b] of [
    [one, other],
    [other, one],
  ])
    for (let v = 0; v < a.length; v += 2)
      for (let i = 0; i < b.length; i += 2) {
        const [px, py] = nearestOnEdge(b, i, (i + 2) % b.length, a[v], a[v + 1]);
        const breadth = Math.hypot(px - a[v], py - a[v + 1]);
        if (breadth < least.breadth) least = { breadth, at: [(px + a[v]) / 2, (py + a[v + 1]) / 2] };
      }
  return least;
}
