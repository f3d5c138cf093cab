import { cutToHeight } from '../../geometry/convex-cut.js';
import { convexHull } from '../../geometry/hull.js';
import { type Polygon, signedArea } from '../../geometry/polygon.js';

/** A half of the plane: all points with nx x + ny y ≥ d, where (nx, ny) is a unit direction. */
interface Half {
  readonly nx: number;
  readonly ny: number;
  readonly d: number;
}

/** Straight cuts that together take a convex region out of a panel. */
export interface KnifeCut {
  /** The region: it runs on beyond the card, so that no sliver stays. x, y pairs. */
  readonly region: Float64Array;
  /** The same with so much more card around its cuts that a neck narrower than that would part. */
  readonly wide: Float64Array;
  /** How many strokes of the knife. */
  readonly strokes: number;
  /** Card that it takes, mm², less what falls away with it. */
  readonly area: number;
}

/** Room left around what passes through, mm: about what a hand can keep to with a knife. (Common practice, no source.) */
const CLEARANCE = 0.25;
/** Card that must stay between a cut and another edge, mm. (Common practice, no source.) */
const NECK = 2;
/** How far a region runs on beyond the card, mm. */
const BEYOND = 1;
/** Directions tried, beside those along the swept region itself. */
const DIRECTIONS = 36;
/** Edges of the swept region along which cuts are tried, the longest. */
const MOST_EDGES = 24;
/** A further stroke must save this share of the card that a simpler cut takes. */
const WORTH = 0.15;

/**
 * Ways to free a panel of what passes through it, by one to four straight strokes around the swept points: an edge or corner
 * cut off, a notch of two, a notch of three, a window of four. The best first: the least card lost, fewer strokes where
 * that costs little.
 */
export function knifeCuts(panel: Polygon, points: ArrayLike<number>): KnifeCut[] {
  const hull = convexHull(points);
  if (hull.length < 2) return [];
  const normals = directions(hull);
  const support = (nx: number, ny: number): Half => {
    let least = Infinity;
    for (let i = 0; i < hull.length; i += 2) least = Math.min(least, nx * hull[i] + ny * hull[i + 1]);
    return { nx, ny, d: least - CLEARANCE };
  };
  const halves = normals.map(([nx, ny]) => support(nx, ny));
  const sets: Half[][] = halves.map((half) => [half]);
  for (let i = 0; i < halves.length; i++)
    for (let j = i + 1; j < halves.length; j++) sets.push([halves[i], halves[j]]);
  for (const [nx, ny] of normals) {
    const notch = [support(nx, ny), support(-ny, nx), support(ny, -nx)];
    sets.push(notch, [...notch, support(-nx, -ny)]);
  }
  const cuts: KnifeCut[] = [];
  const box = boxAround(panel.outline, hull);
  for (const set of sets) {
    const region = clipped(box, set, 0);
    if (region.length < 6) continue;
    const area = areaWithin(panel, set);
    cuts.push({ region, wide: clipped(box, set, NECK), strokes: set.length, area });
  }
  const cost = ({ area, strokes }: KnifeCut) => area * (1 + WORTH * (strokes - 1));
  return cuts.sort((a, b) => cost(a) - cost(b));
}

/** Unit directions all around, and those square to the edges of the hull, either way. */
function directions(hull: Float64Array): [number, number][] {
  const found: [number, number][] = [];
  for (let k = 0; k < DIRECTIONS; k++) {
    const angle = (2 * Math.PI * k) / DIRECTIONS;
    found.push([Math.cos(angle), Math.sin(angle)]);
  }
  const edges: { dx: number; dy: number; long: number }[] = [];
  for (let i = 0, j = hull.length - 2; i < hull.length; j = i, i += 2) {
    const [dx, dy] = [hull[i] - hull[j], hull[i + 1] - hull[j + 1]];
    const long = Math.hypot(dx, dy);
    if (long >= 0.1) edges.push({ dx, dy, long });
  }
  // Of a curve only some: cuts in pairs of directions are tried, and those all around are never far from any.
  const longest = edges.sort((a, b) => b.long - a.long).slice(0, MOST_EDGES);
  for (const { dx, dy, long } of longest) found.push([-dy / long, dx / long], [dy / long, -dx / long]);
  return found;
}

function boxAround(outline: Float64Array, hull: Float64Array): Float64Array {
  let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const ring of [outline, hull])
    for (let i = 0; i < ring.length; i += 2) {
      left = Math.min(left, ring[i] - BEYOND);
      right = Math.max(right, ring[i] + BEYOND);
      low = Math.min(low, ring[i + 1] - BEYOND);
      high = Math.max(high, ring[i + 1] + BEYOND);
    }
  return Float64Array.of(left, low, right, low, right, high, left, high);
}

/**
 * Card of a panel in all halves, mm². Cut off by a line, a ring that is not convex keeps bridges along the line, there and
 * back: they have no area.
 */
function areaWithin({ outline, holes }: Polygon, halves: readonly Half[]): number {
  const area = (ring: Float64Array) => Math.abs(signedArea(clipped(ring, halves, 0)));
  return holes.reduce((left, hole) => left - area(hole), area(outline));
}

/** What of a ring lies in all halves, each moved outwards by `more`. */
function clipped(ring: Float64Array, halves: readonly Half[], more: number): Float64Array {
  const cut = (kept: ArrayLike<number>, { nx, ny, d }: Half) =>
    cutToHeight(kept, (x, y) => nx * x + ny * y - d + more);
  return Float64Array.from(halves.reduce(cut, ring));
}
