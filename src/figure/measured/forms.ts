import { CannotBuild } from '../../motion/cannot-build.js';
import type { Quantity, Word } from '../../parts/fields.js';
import type { Along, PointForm } from '../../parts/spots.js';
import type { Formula } from '../text/arithmetic.js';
import type { Path } from '../text/input-error.js';
import type { Mark, Scene } from './scene.js';

/** No panel is asked for. */
export const ANY = -1;

/** Works out a point; on panel `target`, where the way it is given needs a panel to draw on. */
export type PointAt = (dims: Float64Array, target: number) => Mark;

/** A line from a to b, and on which side of it up is, seen on the panel of a in that panel's own plane: 1 is left. */
export interface OpenLine {
  readonly a: Mark;
  readonly b: Mark;
  readonly up: 1 | -1;
}

export type LineAt = (dims: Float64Array, target: number) => OpenLine;

/** A word or name for the candidate at hand. */
export type WordAt = (dims: Float64Array) => string;

/** A place along a line of that length, mm. */
export type AlongAt = (dims: Float64Array, long: number) => number;

/** What forms of points and lines are read with. */
export interface Reading {
  readonly scene: Scene;
  /** The part whose field it is, whose creases go by short names; empty for none. */
  readonly part: string;
  /** Reads a point as written. */
  point(form: PointForm, path: Path): PointAt;
  number(written: Quantity, path: Path): Formula;
  word(written: Word, path: Path): WordAt;
  along(written: Along, path: Path): AlongAt;
  /** The places of the file. */
  pointNamed(name: string): PointAt | undefined;
  lineNamed(name: string): LineAt | undefined;
  /** Says that nothing has that name. @param what 'place' or 'line' */
  unknown(name: string, what: string, field: string): CannotBuild;
  /** Refuses fields that don't go together. */
  refuse(path: Path, remedy: string): never;
}

/** What is wrong with a line from a point to itself. */
export const NO_LENGTH = 'a line of no length';

/** A panel to draw on, or what to say where there is none. */
export function mustHavePanel(target: number, field: string): number {
  if (target === ANY) throw new CannotBuild("say on which panel it is drawn: 'panel: …'", field, true);
  return target;
}
