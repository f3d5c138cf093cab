import {
  alongAndLeft,
  areaOf,
  distance,
  distanceTo,
  type Point,
  type Ring,
  type Segment,
} from '../../geometry/plane.js';
import type { Net } from './net.js';

/** Where a net is cut and creased; no line twice. */
export interface CutLines {
  /** Outer edges, closed, counter-clockwise. More than one: the net would fall apart. */
  readonly contours: Ring[];
  /** Closed cuts inside, clockwise. */
  readonly holes: Ring[];
  /** Open cuts inside: where two areas touch and no crease joins them, and slits. */
  readonly slits: Segment[];
  /** Each stretch of a fold that has card on both sides, with the fold's place in the net's `folds`. */
  readonly creases: { readonly segment: Segment; readonly fold: number }[];
}

/** Corners this near to one another are one, mm: far above round-off, far below what can be cut. */
const SAME = 1e-3;

/**
 * Sorts the edges of a net's areas. Areas do not overlap, so a stretch of edge that belongs to one area is cut, and one
 * that belongs to two is a crease if a fold lies there, else a slit (such as frees a counter-fold).
 */
export function cutLinesOf({ areas, folds, slits: drawn }: Net): CutLines {
  const corners = new Corners();
  const edges: { from: number; to: number; area: number }[] = [];
  areas.forEach(({ shape }, area) => {
    for (const ring of [shape.outline, ...shape.holes]) {
      const ids = ring.map((p) => corners.idOf(p));
      ids.forEach((from, i) => {
        const to = ids[(i + 1) % ids.length];
        if (from !== to) edges.push({ from, to, area });
      });
    }
  });
  for (const { line } of folds) for (const end of line) corners.idOf(end);

  // Every stretch between neighbouring corners, with the areas on its left.
  const stretches = new Map<string, { from: number; to: number; area: number }>();
  for (const { from, to, area } of edges) {
    const way = corners.along(from, to);
    for (let i = 1; i < way.length; i++)
      stretches.set(`${way[i - 1]} ${way[i]}`, { from: way[i - 1], to: way[i], area });
  }
  const outer = new Map<number, number[]>();
  const creases: CutLines['creases'] = [];
  const slits: Segment[] = [...drawn];
  for (const { from, to, area } of stretches.values()) {
    const other = stretches.get(`${to} ${from}`);
    if (other === undefined) {
      outer.set(from, [...(outer.get(from) ?? []), to]);
      continue;
    }
    if (from > to) continue;
    const segment: Segment = [corners.points[from], corners.points[to]];
    const fold = folds.findIndex(
      ({ between: [a, b], line }) =>
        ((a === area && b === other.area) || (b === area && a === other.area)) &&
        segment.every((end) => distanceTo(line, end) < 2 * SAME),
    );
    if (fold >= 0) creases.push({ segment, fold });
    else slits.push(segment);
  }
  const rings = chain(corners, outer);
  return {
    contours: rings.filter((ring) => areaOf(ring) > 0),
    holes: rings.filter((ring) => areaOf(ring) < 0),
    slits: joined(slits),
    creases: creases
      .map(({ segment, fold }) => ({ segment: alongFold(segment, folds[fold].line), fold }))
      .sort((a, b) => a.fold - b.fold),
  };
}

/** Corners, those that coincide numbered alike. */
class Corners {
  readonly points: Point[] = [];
  readonly #cells = new Map<string, number[]>();

  idOf(p: Point): number {
    const [cx, cy] = [Math.round(p[0] / SAME), Math.round(p[1] / SAME)];
    for (let dx = -1; dx <= 1; dx++)
      for (let dy = -1; dy <= 1; dy++)
        for (const id of this.#cells.get(`${cx + dx} ${cy + dy}`) ?? [])
          if (distance(this.points[id], p) < SAME) return id;
    const id = this.points.push(p) - 1;
    const key = `${cx} ${cy}`;
    this.#cells.set(key, [...(this.#cells.get(key) ?? []), id]);
    return id;
  }

  /** All corners on the way from one to another, both included. */
  along(from: number, to: number): number[] {
    const segment: Segment = [this.points[from], this.points[to]];
    const long = distance(...segment);
    const between: [number, number][] = [];
    this.points.forEach((p, id) => {
      if (id === from || id === to) return;
      const [along, left] = alongAndLeft(segment, p);
      if (Math.abs(left) < SAME && along > 0 && along < long) between.push([along, id]);
    });
    return [from, ...between.sort((a, b) => a[0] - b[0]).map(([, id]) => id), to];
  }
}

/**
 * Chains edges with card on their left into rings. Where more than one goes on from a corner, the one that turns most
 * to the left follows the same corner of card, so that rings that touch stay apart.
 */
function chain(corners: Corners, outer: Map<number, number[]>): Ring[] {
  const rings: Ring[] = [];
  for (const start of [...outer.keys()])
    while ((outer.get(start)?.length ?? 0) > 0) {
      const ids = [start];
      let at = take(corners, outer, start, null);
      while (at !== start && at !== null) {
        const before = ids[ids.length - 1];
        ids.push(at);
        at = take(corners, outer, at, before);
      }
      if (at === start) rings.push(withoutFlatCorners(ids.map((id) => corners.points[id])));
    }
  return rings;
}

function take(
  corners: Corners,
  outer: Map<number, number[]>,
  at: number,
  before: number | null,
): number | null {
  const ways = outer.get(at) ?? [];
  if (ways.length === 0) return null;
  let best = 0;
  if (before !== null && ways.length > 1) {
    const heading = (from: number, to: number) =>
      Math.atan2(
        corners.points[to][1] - corners.points[from][1],
        corners.points[to][0] - corners.points[from][0],
      );
    const back = heading(at, before);
    const clockwise = ways.map((to) => (back - heading(at, to) + 4 * Math.PI) % (2 * Math.PI));
    best = clockwise.indexOf(Math.min(...clockwise));
  }
  return ways.splice(best, 1)[0];
}

/** Leaves out corners at which a ring goes straight on. */
function withoutFlatCorners(ring: Ring): Ring {
  const kept = ring.filter((p, i) => {
    const before = ring[(i + ring.length - 1) % ring.length];
    const next = ring[(i + 1) % ring.length];
    return distanceTo([before, next], p) > 1e-6;
  });
  return kept.length > 2 ? kept : ring;
}

/** The segment in the direction of its fold's line. */
function alongFold([a, b]: Segment, line: Segment): Segment {
  return alongAndLeft(line, a)[0] <= alongAndLeft(line, b)[0] ? [a, b] : [b, a];
}

/** Joins segments that go straight on into one another. */
function joined(segments: readonly Segment[]): Segment[] {
  const out: Segment[] = [];
  for (const segment of segments) {
    const before = out.findIndex(
      ([a, b]) =>
        (distance(b, segment[0]) < SAME && distanceTo([a, segment[1]], b) < SAME) ||
        (distance(a, segment[1]) < SAME && distanceTo([segment[0], b], a) < SAME),
    );
    if (before < 0) {
      out.push(segment);
      continue;
    }
    const [a, b] = out[before];
    out[before] = distance(b, segment[0]) < SAME ? [a, segment[1]] : [segment[0], b];
  }
  return out;
}
