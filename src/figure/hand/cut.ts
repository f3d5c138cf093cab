import type { Assembly } from '../../motion/assembly.js';
import type { PartKind } from '../../parts/part.js';

/** One thing that is cut, creased or glued by hand, and so is off by an error of its own. */
export interface Cut {
  readonly part: string;
  /** Which of the part's fields; in words a maker would use. @example 'glue left', 'outline corner 3 x' */
  readonly field: string;
  readonly unit: 'mm' | 'degrees';
  /** As drawn. */
  readonly value: number;
  /** Glued by shutting the page on it: where it lies is off by less, and takes up what the part's other cuts are off. */
  readonly closedOn: boolean;
}

/** A part of the figure for the candidate at hand. */
export interface DrawnPart {
  readonly name: string;
  readonly kind: PartKind;
  /** Adds it as it is drawn, from what is drawn already. @returns its fields */
  draw(assembly: Assembly): object;
  /** Adds it as it is cut, or says what is wrong with its fields. */
  add(kind: PartKind, fields: object, assembly: Assembly): void;
}
