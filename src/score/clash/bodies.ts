import { convexHull, isConvex } from '../../geometry/hull.js';
import type { Line } from '../../geometry/line.js';
import { zeros } from '../../geometry/numbers.js';
import { boundingCircle, type Polygon } from '../../geometry/polygon.js';
import { outsideOf } from '../../geometry/ring-distance.js';
import type { Assembly, Panel } from '../../motion/assembly.js';
import { POSE } from '../../motion/pose.js';

/**
 * Panels that move as one, since they are glued flat to one another. All lie in one plane. The body's frame is that of
 * its first panel.
 */
export interface Body {
  /** Its first panel: the one whose pose is the body's. */
  readonly panel: number;
  /** The panels that need testing: a tab or a patch that lies wholly on another of its panels meets nothing alone. */
  readonly members: readonly number[];
  /** Corners of the convex hull of all its card, in the body's frame. */
  readonly hull: Float64Array;
  /** A circle around that hull. */
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** A plane motion from one panel's frame into another's: x' = xx x + xy y + x0, y' = yx x + yy y + y0. */
export interface Placing {
  readonly xx: number;
  readonly xy: number;
  readonly x0: number;
  readonly yx: number;
  readonly yy: number;
  readonly y0: number;
}

const SAME: Placing = { xx: 1, xy: 0, x0: 0, yx: 0, yy: 1, y0: 0 };

/** The bodies of an assembly, in order of their first panels: the two pages come first. */
export function bodiesOf(assembly: Assembly): Body[] {
  const byBody = new Map<number, number[]>();
  assembly.panels.forEach(({ body }, k) => {
    const members = byBody.get(body);
    if (members === undefined) byBody.set(body, [k]);
    else members.push(k);
  });
  return [...byBody].map(([panel, all]) => bodyOf(assembly, panel, all));
}

function bodyOf({ panels, open }: Assembly, panel: number, all: readonly number[]): Body {
  if (all.length === 1) {
    const hull = hullOf(panels[panel].outline);
    return { panel, members: all, hull, ...boundingCircle(hull) };
  }
  const placed = all.map((k) => placedShape(panels[k], placingIn(open, k, panel)));
  const needed = all.map((_, i) => i).filter((i) => !placed.some((on, j) => j < i && liesOn(placed[i], on)));
  const hull =
    needed.length === 1
      ? hullOf(placed[needed[0]].outline)
      : convexHull(needed.flatMap((i) => Array.from(placed[i].outline)));
  return { panel, members: needed.map((i) => all[i]), hull, ...boundingCircle(hull) };
}

/** The hull of one ring, which may be the ring itself. */
const hullOf = (ring: Float64Array): Float64Array => (isConvex(ring) ? ring : convexHull(ring));

/** How panel k lies in the frame of another panel of its body. */
export function placingIn(poses: Float64Array, k: number, frame: number): Placing {
  if (k === frame) return SAME;
  const i = k * POSE;
  const j = frame * POSE;
  const along = (axis: number, x: number, y: number, z: number) =>
    poses[j + axis] * x + poses[j + 4 + axis] * y + poses[j + 8 + axis] * z;
  const column = (axis: number, c: number) => along(axis, poses[i + c], poses[i + 4 + c], poses[i + 8 + c]);
  const shift = (axis: number) =>
    along(axis, poses[i + 3] - poses[j + 3], poses[i + 7] - poses[j + 7], poses[i + 11] - poses[j + 11]);
  return {
    xx: column(0, 0),
    xy: column(0, 1),
    x0: shift(0),
    yx: column(1, 0),
    yy: column(1, 1),
    y0: shift(1),
  };
}

/** A ring in the other frame. */
export function placedRing(ring: Float64Array, placing: Placing): Float64Array {
  if (placing === SAME) return ring;
  const { xx, xy, x0, yx, yy, y0 } = placing;
  const placed = zeros(ring.length);
  for (let i = 0; i < ring.length; i += 2) {
    placed[i] = xx * ring[i] + xy * ring[i + 1] + x0;
    placed[i + 1] = yx * ring[i] + yy * ring[i + 1] + y0;
  }
  return placed;
}

/** A panel's shape in the other frame. */
export function placedShape({ outline, holes }: Panel, placing: Placing): Polygon {
  return {
    outline: placedRing(outline, placing),
    holes: holes.map((hole) => placedRing(hole, placing)),
  };
}

/** A point in the other frame. */
export function placedPoint(
  [x, y]: readonly [number, number],
  { xx, xy, x0, yx, yy, y0 }: Placing,
): [number, number] {
  return [xx * x + xy * y + x0, yx * x + yy * y + y0];
}

/** A line in the other frame. */
export function placedLine(line: Line, { xx, xy, x0, yx, yy, y0 }: Placing): Line {
  return {
    x0: xx * line.x0 + xy * line.y0 + x0,
    y0: yx * line.x0 + yy * line.y0 + y0,
    x1: xx * line.x1 + xy * line.y1 + x0,
    y1: yx * line.x1 + yy * line.y1 + y0,
  };
}

/** Card this near to an edge, mm, counts as lying on it. */
const ON_EDGE = 1e-6;

/**
 * Whether one shape lies wholly on the card of another. Sure when it says so; a shape that touches the other's edges in
 * a way that is not plain may be taken for one that does not.
 */
export function liesOn(inner: Polygon, outer: Polygon): boolean {
  const { outline } = inner;
  const rings = [outer.outline, ...outer.holes];
  for (let i = 0; i < outline.length; i += 2) {
    const j = (i + 2) % outline.length;
    const [x, y] = [outline[i], outline[i + 1]];
    if (outsideOf(outer.outline, [x, y]) > ON_EDGE) return false;
    for (const hole of outer.holes) if (outsideOf(hole, [x, y]) < -ON_EDGE) return false;
    for (const ring of rings) if (passesThrough(ring, x, y, outline[j] - x, outline[j + 1] - y)) return false;
  }
  // No edge runs through it: then a hole, or a notch of the outline, lies either wholly beside it or wholly inside.
  return rings.every((ring) => !edgeInside(ring, outline));
}

/** Whether a corner of one ring, or the middle of one of its edges, lies clearly inside another. */
function edgeInside(ring: Float64Array, within: Float64Array): boolean {
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    if (outsideOf(within, [ring[i], ring[i + 1]]) < -ON_EDGE) return true;
    if (outsideOf(within, [(ring[i] + ring[j]) / 2, (ring[i + 1] + ring[j + 1]) / 2]) < -ON_EDGE) return true;
  }
  return false;
}

/** Whether the stretch from (x, y) by (dx, dy) passes right through an edge of a ring. */
function passesThrough(ring: Float64Array, x: number, y: number, dx: number, dy: number): boolean {
  const long = Math.sqrt(dx * dx + dy * dy) || 1;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const ex = ring[i] - ring[j];
    const ey = ring[i + 1] - ring[j + 1];
    const edge = Math.sqrt(ex * ex + ey * ey) || 1;
    const a = (dx * (ring[j + 1] - y) - dy * (ring[j] - x)) / long;
    const b = (dx * (ring[i + 1] - y) - dy * (ring[i] - x)) / long;
    const c = (ex * (y - ring[j + 1]) - ey * (x - ring[j])) / edge;
    const d = (ex * (y + dy - ring[j + 1]) - ey * (x + dx - ring[j])) / edge;
    if (parted(a, b) && parted(c, d)) return true;
  }
  return false;
}

/** Whether two distances lie clearly on opposite sides. */
const parted = (a: number, b: number): boolean =>
  (a > ON_EDGE && b < -ON_EDGE) || (a < -ON_EDGE && b > ON_EDGE);
