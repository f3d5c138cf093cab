import type { Way } from '../card/fold-room.js';

type Pair = readonly [number, number];
type Point = readonly [number, number];

/** A fold of two panels as card sees it: what bows or stretches where it is off. Lengths in mm, angles in radians. */
export interface CardFold {
  readonly part: string;
  readonly piece: string;
  /** The panels stood on, and the new ones. */
  readonly on: Pair;
  readonly panels: Pair;
  /** Distances of the feet and widths of the panels; about a vertex glue angles and sectors. */
  readonly feet: Pair;
  readonly sides: Pair;
  readonly way: Way;
  /** Whether it turns about a vertex; else its creases are parallel. */
  readonly vertex: boolean;
  /**
   * What tells the angle between its parents: a point of each foot in its parent's plane, and the direction of the creases
   * in the first; about a vertex the directions of both glue lines.
   */
  readonly marks: readonly [Point, Point];
  readonly along: Point;
  /** Length along its creases; about a vertex the card lies from `inner` to `outer`, radii. */
  readonly length: number;
  readonly inner: number;
}
