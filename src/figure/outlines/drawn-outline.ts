import { faultOf, MEETS_ITSELF } from '../../geometry/faults.js';
import { signedArea } from '../../geometry/polygon.js';
import type { Drawing } from './drawing.js';
import { flatten, PathFault, type Point } from './flatten.js';

/** An outline in a panel's coordinates: along its foot, up from its foot, mm. As `outlineFields` of the parts have it. */
export interface DrawnOutline {
  readonly polygon: Point[];
  readonly holes?: Point[][];
}

/** Coordinates are rounded to this, mm. */
const FINENESS = 0.001;
/** A ring of less area is no outline, mm². */
const LEAST_AREA = 0.01;

/**
 * The outline that a path of an SVG file draws. Its largest ring is the outline, the others are holes. Curves are
 * flattened to 0.05 mm. The drawing's y runs down, a panel's up.
 * @param zero the point of the drawing, in mm from its top left corner, that comes to (0, 0); if not given, the lower left
 *   corner of the path's extent
 * @throws PathFault with what is wrong with the path
 */
export function drawnOutline(drawing: Drawing, id: string, zero?: readonly [number, number]): DrawnOutline {
  const { d, transforms } = drawing.path(id);
  const rings = flatten(d, transforms)
    .map(distinct)
    .filter((ring) => ring.length > 2 && (Math.abs(signedArea(flat(ring))) > LEAST_AREA || isCrossed(ring)));
  if (rings.length === 0) throw new PathFault('a path without area', 'draw a closed outline');
  const [x0, y0] = zero ?? lowerLeft(rings);
  const turned = rings.map((ring) =>
    distinct(ring.map(([x, y]): Point => [rounded(x - x0), rounded(y0 - y)])),
  );
  const [polygon, ...holes] = turned.sort(
    (a, b) => Math.abs(signedArea(flat(b))) - Math.abs(signedArea(flat(a))),
  );
  const fault = faultOf({ outline: flat(polygon), holes: holes.map(flat) });
  if (fault !== undefined)
    throw new PathFault(
      `a path that is no outline near (${rounded(fault.x)}, ${rounded(fault.y)}) mm: ${fault.why}`,
      'draw one simple outline, with holes inside it',
    );
  return holes.length === 0 ? { polygon } : { polygon, holes };
}

/**
 * The lower left corner of a path's extent, in mm from the drawing's top left corner: where its outline has its (0, 0).
 * @throws PathFault with what is wrong with the path
 */
export function lowerLeftOf(drawing: Drawing, id: string): Point {
  const { d, transforms } = drawing.path(id);
  const rings = flatten(d, transforms);
  if (rings.length === 0) throw new PathFault('a path without area', 'draw a closed outline');
  return lowerLeft(rings);
}

const flat = (ring: readonly Point[]): Float64Array => Float64Array.from(ring.flat());

/** Whether a ring has no area only since its halves, drawn round the other way each, cancel out: a bow-tie, an eight. */
function isCrossed(ring: readonly Point[]): boolean {
  return faultOf({ outline: flat(ring), holes: [] })?.why === MEETS_ITSELF;
}

const rounded = (v: number): number => Math.round(v * 1000) / 1000;

function lowerLeft(rings: readonly Point[][]): Point {
  const points = rings.flat();
  return [
    points.reduce((least, [x]) => Math.min(least, x), Number.POSITIVE_INFINITY),
    points.reduce((most, [, y]) => Math.max(most, y), Number.NEGATIVE_INFINITY),
  ];
}

/** Without points that repeat the one before, the last before the first included. */
function distinct(ring: readonly Point[]): Point[] {
  return ring.filter(([x, y], i) => {
    const [px, py] = ring.at(i - 1) ?? [Number.NaN, Number.NaN];
    return Math.hypot(x - px, y - py) >= FINENESS / 2;
  });
}
