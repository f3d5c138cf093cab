import { Clipper, EndType, FillRule, JoinType, type Paths64 } from 'clipper2-ts';
import {
  areaOf,
  type Box,
  boxOf,
  cardIn,
  inside,
  type Point,
  type Ring,
  running,
  type Shape,
} from './plane.js';

/**
 * Unions, overlaps, differences and bands of shapes, by Clipper2 (A. Johnson; Vatti 1992). It works on whole numbers,
 * here hundred-thousandths of a millimetre, so that nearly coinciding edges cannot confuse it.
 */
const UNIT = 1e5;

/** Crumbs below this area, mm², come from round-off along shared edges and are dropped. */
const CRUMB = 0.01;

function pathsOf(all: readonly Shape[]): Paths64 {
  return all.flatMap(({ outline, holes }) =>
    [running(outline, 1), ...holes.map((hole) => running(hole, -1))].map((ring) =>
      ring.map(([x, y]) => ({ x: Math.round(x * UNIT), y: Math.round(y * UNIT) })),
    ),
  );
}

/** Rings that run counter-clockwise are outlines; each hole belongs to the smallest outline around it. */
function shapesOf(paths: Paths64): Shape[] {
  const rings = paths
    .map((path): Ring => path.map(({ x, y }) => [x / UNIT, y / UNIT]))
    .filter((ring) => Math.abs(areaOf(ring)) > CRUMB);
  const outlines = rings.filter((ring) => areaOf(ring) > 0).sort((a, b) => areaOf(a) - areaOf(b));
  const shapes = outlines.map((outline) => ({ outline, holes: [] as Ring[] }));
  for (const hole of rings.filter((ring) => areaOf(ring) < 0))
    shapes
      .find(({ outline }) => areaOf(outline) > -areaOf(hole) && hole.some((p) => inside(outline, p)))
      ?.holes.push(hole);
  return shapes.filter((shape) => cardIn(shape) > CRUMB);
}

export function overlapOf(a: Shape, b: Shape): Shape[] {
  if (!boxesMeet(boxOf(a.outline), boxOf(b.outline))) return [];
  return shapesOf(Clipper.intersect(pathsOf([a]), pathsOf([b]), FillRule.NonZero));
}

export function less(a: Shape, ...taken: Shape[]): Shape[] {
  return shapesOf(Clipper.difference(pathsOf([a]), pathsOf(taken), FillRule.NonZero));
}

/** Shapes grown by so many mm on every side, round at the corners. */
export function grown(all: readonly Shape[], by: number): Shape[] {
  return shapesOf(
    Clipper.inflatePaths(pathsOf(all), by * UNIT, JoinType.Round, EndType.Polygon, 2, 0.02 * UNIT),
  );
}

export function totalArea(all: readonly Shape[]): number {
  return all.reduce((sum, shape) => sum + cardIn(shape), 0);
}

function boxesMeet(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.low < b.high && b.low < a.high;
}

/** A ring alone as a shape. */
export const solid = (outline: Ring): Shape => ({ outline: running(outline, 1), holes: [] });

/** The convex hull, counter-clockwise (monotone chain, Andrew 1979). */
export function hullOf(points: readonly Point[]): Ring {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (ordered: readonly Point[]): Point[] => {
    const chain: Point[] = [];
    for (const p of ordered) {
      while (chain.length > 1 && !turnsLeft(chain[chain.length - 2], chain[chain.length - 1], p)) chain.pop();
      chain.push(p);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.reverse())];
}

function turnsLeft(a: Point, b: Point, c: Point): boolean {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) > 1e-12;
}
