import { Clipper, EndType, FillRule, JoinType, type Paths64 } from 'clipper2-ts';
import { inUnits, pathThrough, pointsOf } from './clipper.js';
import { areaOf, type Box, boxOf, cardIn, inside, type Ring, running, type Shape } from './plane.js';

// Unions, overlaps, differences and bands of shapes, by Clipper2.

/** Crumbs below this area, mm², come from round-off along shared edges and are dropped. */
const CRUMB = 0.01;

function pathsOf(all: readonly Shape[]): Paths64 {
  return all.flatMap(({ outline, holes }) =>
    [running(outline, 1), ...holes.map((hole) => running(hole, -1))].map((ring) => pathThrough(ring)),
  );
}

/** Rings that run counter-clockwise are outlines; each hole belongs to the smallest outline around it. */
function shapesOf(paths: Paths64): Shape[] {
  const rings = paths.map((path): Ring => pointsOf(path)).filter((ring) => Math.abs(areaOf(ring)) > CRUMB);
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

export function united(all: readonly Shape[]): Shape[] {
  return shapesOf(Clipper.union(pathsOf(all), FillRule.NonZero));
}

export function less(a: Shape, ...taken: Shape[]): Shape[] {
  return shapesOf(Clipper.difference(pathsOf([a]), pathsOf(taken), FillRule.NonZero));
}

/** Shapes grown by so many mm on every side, round at the corners. */
export function grown(all: readonly Shape[], by: number): Shape[] {
  return shapesOf(
    Clipper.inflatePaths(pathsOf(all), inUnits(by), JoinType.Round, EndType.Polygon, 2, inUnits(0.02)),
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
