import { Clipper, FillRule, type Path64, type Paths64 } from 'clipper2-ts';
import type { Point } from './plane.js';
import type { Polygon } from './polygon.js';

/**
 * Clipper2 (A. Johnson; Vatti 1992) works on whole numbers, here millionths of a millimetre: edges that all but coincide
 * are one, and a product of two lengths of a page still is an exact number.
 */
const UNIT = 1e6;

/** A ring, as x, y pairs in mm, for Clipper. */
export function pathOf(ring: ArrayLike<number>): Path64 {
  const path: Path64 = [];
  for (let i = 0; i < ring.length; i += 2) path.push({ x: whole(ring[i]), y: whole(ring[i + 1]) });
  return path;
}

/** A ring of points for Clipper. */
export const pathThrough = (ring: readonly Point[]): Path64 =>
  ring.map(([x, y]) => ({ x: whole(x), y: whole(y) }));

/** The points of a path, mm. */
export const pointsOf = (path: Path64): Point[] => path.map(({ x, y }) => [x / UNIT, y / UNIT]);

/** A length in Clipper's units. */
export const inUnits = (mm: number): number => mm * UNIT;

const whole = (mm: number): number => Math.round(mm * UNIT);

/** Outline and holes, which may run either way: to be filled by parity. */
export const pathsOf = ({ outline, holes }: Polygon): Paths64 => [outline, ...holes].map(pathOf);

/** How much of one shape lies beyond another, mm². */
export function areaBeyond(shape: Polygon, other: Polygon): number {
  const beyond = Clipper.difference(pathsOf(shape), pathsOf(other), FillRule.EvenOdd);
  return beyond.reduce((sum, path) => sum + Clipper.area(path), 0) / UNIT ** 2;
}
