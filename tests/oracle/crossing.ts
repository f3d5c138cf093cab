/** How deep two flat cards pass through each other, as docs/clash.md says it: cut by the line of both planes. */
import { type Area, common } from './shapes.js';
import {
  add,
  at,
  cross,
  dot,
  type Frame,
  normal,
  type P2,
  size,
  sub,
  times,
  type V3,
  within,
} from './space.js';

export interface Placed {
  area: Area;
  frame: Frame;
}
export interface Crossing {
  /** mm: the least of both pokes and of the shift along the line. */
  depth: number;
  /** mm: the same with each poke times the sine of the angle between the panels. */
  push: number;
  /** Angle between the planes, 0 to 90°. */
  degrees: number;
}

/** The least and the greatest x, y, z of a card. */
export function boxOf({ area, frame }: Placed): [V3, V3] {
  const corners = area.flatMap(([outline]) => outline.map((p) => at(frame, p)));
  const limits = (pick: (...of: number[]) => number): V3 => [
    pick(...corners.map(([x]) => x)),
    pick(...corners.map(([, y]) => y)),
    pick(...corners.map(([, , z]) => z)),
  ];
  return [limits(Math.min), limits(Math.max)];
}
export const apart = ([a, b]: [V3, V3], [c, d]: [V3, V3]): boolean =>
  [0, 1, 2].some((k) => b[k] < c[k] || d[k] < a[k]);

/** How high the corners of a card lie over the plane of another: the lowest, the highest. */
function heights({ area, frame }: Placed, other: Frame): [number, number] {
  const n = normal(other);
  let [low, high] = [Infinity, -Infinity];
  for (const [outline] of area)
    for (const p of outline) {
      const h = dot(sub(at(frame, p), other.o), n);
      low = Math.min(low, h);
      high = Math.max(high, h);
    }
  return [low, high];
}

const CLEAR = 1e-6;

export function crossing(a: Placed, b: Placed): Crossing | null {
  for (const [one, other] of [
    [a, b],
    [b, a],
  ]) {
    const [low, high] = heights(one, other.frame);
    if (low > -CLEAR || high < CLEAR) return null;
  }
  const line = lineOfPlanes(a.frame, b.frame);
  if (line === null) return null;
  const { o, d, sine } = line;
  const cuts = [a, b].map((card) => cutBy(card, o, d));
  let found: Crossing | null = null;
  for (const [a0, a1] of cuts[0].stretches)
    for (const [b0, b1] of cuts[1].stretches) {
      const [from, to] = [Math.max(a0, b0), Math.min(a1, b1)];
      if (to - from < CLEAR) continue;
      const shift = Math.min(a1 - b0, b1 - a0);
      const poke = Math.min(...cuts.map((cut) => cut.poke(from, to)));
      const depth = Math.min(poke, shift);
      if (found === null || depth > found.depth)
        found = {
          depth,
          push: Math.min(poke * sine, shift),
          degrees: (Math.asin(Math.min(1, sine)) * 180) / Math.PI,
        };
    }
  return found;
}

/** Where a card cuts the plane of another, in that one's coordinates: stretches from point to point. */
export function cutsPlane(card: Placed, plane: Frame): [P2, P2][] {
  // What touches the plane from one side, as a foot on the other page does while both are open, does not cut it.
  const TOUCHES = 1e-4;
  const [low, high] = heights(card, plane);
  const line = lineOfPlanes(card.frame, plane);
  if (low > -TOUCHES || high < TOUCHES || line === null) return [];
  const on = (t: number) => within(plane, add(line.o, line.d, t));
  return cutBy(card, line.o, line.d).stretches.map(([from, to]) => [on(from), on(to)]);
}

/** The line in which two planes meet, through the point of it that is nearest to where the first panel begins. */
function lineOfPlanes(a: Frame, b: Frame): { o: V3; d: V3; sine: number } | null {
  const [n, m] = [normal(a), normal(b)];
  const way = cross(n, m);
  const sine = size(way);
  if (sine < 1e-6) return null;
  const d = times(way, 1 / sine);
  const inA = cross(d, n);
  return { o: add(a.o, inA, dot(sub(b.o, a.o), m) / dot(inA, m)), d, sine };
}

/** A card cut by a line of its plane: where the line runs on card, and how far the card on either side of it reaches. */
function cutBy({ area, frame }: Placed, o: V3, d: V3) {
  const base = within(frame, o);
  const way: P2 = [dot(d, frame.u), dot(d, frame.v)];
  // In coordinates along the line and off it.
  const laid: Area = area.map((rings) =>
    rings.map((ring) =>
      ring.map(([x, y]): P2 => {
        const [p, q] = [x - base[0], y - base[1]];
        return [p * way[0] + q * way[1], q * way[0] - p * way[1]];
      }),
    ),
  );
  // An edge along the line has card on one side of it only: it is no way through.
  const stretches = meetings(
    runs(laid, (h) => h > -CLEAR),
    runs(laid, (h) => h > CLEAR),
  );
  const simple = laid.length === 1 && laid[0].length === 1 && stretches.length <= 1;
  return {
    stretches,
    poke: (from: number, to: number) =>
      Math.min(
        ...[1, -1].map((side) => (simple ? reach(laid[0][0], side) : reachOfPart(laid, side, from, to))),
      ),
  };
}

/** Where the line runs on card, corners on it counted to the one side or to the other. */
function runs(laid: Area, over: (h: number) => boolean): P2[] {
  const hits: number[] = [];
  for (const ring of laid.flat())
    ring.forEach(([t, h], i) => {
      const [u, k] = ring[(i + 1) % ring.length];
      if (over(h) !== over(k)) hits.push(Math.abs(h - k) < 2 * CLEAR ? t : t + ((u - t) * h) / (h - k));
    });
  hits.sort((p, q) => p - q);
  return Array.from({ length: Math.floor(hits.length / 2) }, (_, i): P2 => [hits[2 * i], hits[2 * i + 1]]);
}

const meetings = (some: P2[], others: P2[]): P2[] =>
  some
    .flatMap(([a, b]) => others.map(([c, d]): P2 => [Math.max(a, c), Math.min(b, d)]))
    .filter(([from, to]) => to - from > CLEAR);

const reach = (ring: readonly P2[], side: number) => Math.max(0, ...ring.map(([, h]) => side * h));

/** The same of those parts alone, on one side of the line, that touch a stretch of it. */
function reachOfPart(laid: Area, side: number, from: number, to: number): number {
  const wide = 1 + Math.max(...laid.flat(2).map(([x, y]) => Math.hypot(x, y)));
  const half: Area = [
    [
      [
        [-wide, 0],
        [wide, 0],
        [wide, side * wide],
        [-wide, side * wide],
      ],
    ],
  ];
  let most = 0;
  for (const [outline] of common(laid, half)) {
    const touches = outline.some(([t, h], i) => {
      const [u, k] = outline[(i + 1) % outline.length];
      return (
        Math.abs(h) < 1e-7 &&
        Math.abs(k) < 1e-7 &&
        Math.min(Math.max(t, u), to) - Math.max(Math.min(t, u), from) > CLEAR
      );
    });
    if (touches) most = Math.max(most, reach(outline, side));
  }
  return most;
}
