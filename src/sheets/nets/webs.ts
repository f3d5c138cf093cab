import {
  distance,
  distanceTo,
  edgesOf,
  middle,
  onCard,
  type Point,
  type Segment,
} from '../../geometry/plane.js';
import type { CutLines } from './cut-lines.js';
import type { Net } from './net.js';

/** Card or a gap too narrow to cut well. */
export interface Narrow {
  readonly of: 'card' | 'gap';
  readonly width: number;
  /** In the net's coordinates. */
  readonly at: Point;
  /** The panel or tab that is nearest. */
  readonly near: string;
}

/** Least width of card between two cuts, and of a gap, mm. (Common practice of die makers, no source.) */
export const LEAST_CARD = 2;
export const LEAST_GAP = 1;
/** What is narrower by no more than this is as wide as it must be, mm. */
const OFF = 0.01;

interface Cut {
  readonly edge: Segment;
  /** Which ring or slit it is of, how far along it the edge starts, and how long that ring is (Infinity for a slit). */
  readonly line: number;
  readonly from: number;
  readonly around: number;
}

/** The narrowest card and the narrowest gap of a piece, where they are narrower than can be cut well. */
export function narrowIn(net: Net, { contours, holes, slits }: CutLines): Narrow[] {
  const cuts: Cut[] = [];
  [...contours, ...holes].forEach((ring, line) => {
    const edges = edgesOf(ring);
    const around = edges.reduce((sum, edge) => sum + distance(...edge), 0);
    let from = 0;
    for (const edge of edges) {
      cuts.push({ edge, line, from, around });
      from += distance(...edge);
    }
  });
  slits.forEach((edge, i) => {
    cuts.push({ edge, line: -1 - i, from: 0, around: Number.POSITIVE_INFINITY });
  });
  const worst = new Map<Narrow['of'], Narrow>();
  // Narrower than this, it is told at least of one of both.
  const told = () =>
    Math.max(worst.get('card')?.width ?? LEAST_CARD - OFF, worst.get('gap')?.width ?? LEAST_GAP - OFF);
  const near = nearCuts(cuts);
  cuts.forEach((a, i) => {
    for (const j of near(i)) {
      const b = cuts[j];
      const [p, q] = nearestPoints(a.edge, b.edge);
      const width = distance(p, q);
      if (width < 1e-3 || width >= told()) continue;
      // Round a blunt corner the way along the edge is short; across a web or a gap it is long.
      if (a.line === b.line) {
        const way = Math.abs(a.from + distance(a.edge[0], p) - b.from - distance(b.edge[0], q));
        if (Math.min(way, a.around - way) < 3 * width) continue;
      }
      const of = net.areas.some(({ shape }) => onCard(shape, middle([p, q]))) ? 'card' : 'gap';
      if (
        width >= (of === 'card' ? LEAST_CARD : LEAST_GAP) - OFF ||
        width >= (worst.get(of)?.width ?? Number.POSITIVE_INFINITY)
      )
        continue;
      const at = middle([p, q]);
      worst.set(of, { of, width, at, near: areaNear(net, at) });
    }
  });
  return [...worst.values()];
}

/** Of each cut, the later ones whose boxes come nearer than card may be narrow, in their order. */
function nearCuts(cuts: readonly Cut[]): (cut: number) => number[] {
  const boxes = cuts.map(({ edge: [[ax, ay], [bx, by]] }) => ({
    left: Math.min(ax, bx),
    right: Math.max(ax, bx),
    low: Math.min(ay, by),
    high: Math.max(ay, by),
  }));
  const fromLeft = [...cuts.keys()].sort((a, b) => boxes[a].left - boxes[b].left);
  const near: number[][] = cuts.map(() => []);
  fromLeft.forEach((i, place) => {
    const { right, low, high } = boxes[i];
    for (let k = place + 1; k < fromLeft.length; k++) {
      const j = fromLeft[k];
      if (boxes[j].left - right >= LEAST_CARD) break;
      if (boxes[j].low - high < LEAST_CARD && low - boxes[j].high < LEAST_CARD)
        near[Math.min(i, j)].push(Math.max(i, j));
    }
  });
  return (cut) => near[cut].sort((a, b) => a - b);
}

function nearestPoints(a: Segment, b: Segment): [Point, Point] {
  // Edges of one piece do not cross, so the nearest points include an end.
  const ends: [Point, Point][] = [
    [a[0], footOn(b, a[0])],
    [a[1], footOn(b, a[1])],
    [footOn(a, b[0]), b[0]],
    [footOn(a, b[1]), b[1]],
  ];
  let best = ends[0];
  for (const pair of ends) if (distance(...pair) < distance(...best)) best = pair;
  return best;
}

function footOn([a, b]: Segment, p: Point): Point {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const t = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy);
  const within = Math.min(1, Math.max(0, t));
  return [a[0] + within * dx, a[1] + within * dy];
}

function areaNear(net: Net, p: Point): string {
  const far = net.areas.map(({ shape, name }) => ({
    name,
    away: onCard(shape, p) ? 0 : Math.min(...edgesOf(shape.outline).map((edge) => distanceTo(edge, p))),
  }));
  return far.reduce((a, b) => (b.away < a.away ? b : a)).name;
}
