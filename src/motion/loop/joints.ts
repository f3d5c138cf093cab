import { CannotBuild } from '../cannot-build.js';

/** A point on a panel, in its own plane, mm. */
export type Point = readonly [number, number];

/**
 * How two panels a and b of a loop are held together; either may be driven or free.
 *
 * Play is hole less waist, both diameters. The waist is fixed to one of the two panels and stands in a hole of the
 * other: their centres can part by half the play, each way, before waist and hole touch. Half the play is therefore
 * what a pivot or a slide gives for nothing.
 */
export type LoopJoint = Pivot | HingedCrease | Slide;

/** A hub: two points that meet, and two faces that stay parallel at a cost. */
export interface Pivot {
  readonly kind: 'pivot';
  readonly a: number;
  readonly b: number;
  readonly pointA: Point;
  readonly pointB: Point;
  /** mm */
  readonly play: number;
}

/** A crease: two lines, each given by its ends, that stay together. Glued down at the end of a chain, it may be lifted. */
export interface HingedCrease {
  readonly kind: 'crease';
  readonly a: number;
  readonly b: number;
  readonly lineA: readonly [Point, Point];
  readonly lineB: readonly [Point, Point];
}

/** A tongue in a slit: a point of a that stays on a line of b, between its ends. */
export interface Slide {
  readonly kind: 'slide';
  readonly a: number;
  readonly b: number;
  readonly pointA: Point;
  readonly alongB: readonly [Point, Point];
  /** Width of the slit less that of the waist in it, mm. */
  readonly play: number;
}

/** @throws CannotBuild when a joint cannot be held: a place that is no number, no length, one panel only */
export function checkJoint(j: LoopJoint): void {
  const what = `the ${j.kind} between panels ${j.a} and ${j.b}`;
  if (j.a === j.b) throw new CannotBuild(`${what} joins a panel to itself`);
  const lines = j.kind === 'crease' ? [j.lineA, j.lineB] : j.kind === 'slide' ? [j.alongB] : [];
  const points = j.kind === 'crease' ? [] : j.kind === 'slide' ? [j.pointA] : [j.pointA, j.pointB];
  if (![...lines.flat(2), ...points.flat()].every(Number.isFinite))
    throw new CannotBuild(`${what} has a place that is no number`);
  for (const [[x0, y0], [x1, y1]] of lines)
    if (Math.hypot(x1 - x0, y1 - y0) < 1e-9) throw new CannotBuild(`${what} has no length`);
  if (j.kind !== 'crease' && !(j.play >= 0)) throw new CannotBuild(`${what} has a play below 0`);
}
