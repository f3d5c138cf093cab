import type { Assembly } from '../motion/assembly.js';
import type { PartKind } from './part.js';

/** A straight stretch on a panel, from point to point: [along its foot, up from its foot], mm. */
export type Stretch = readonly [readonly [number, number], readonly [number, number]];

/** A drawn outline, and the creases that its edges may run along. */
export interface DrawnEdge {
  /** The field that holds the outline, its steps joined by dots. */
  readonly field: string;
  readonly panel: string;
  readonly creases: readonly Stretch[];
}

/** A part as it is drawn on the card, everything that is cut or glued on its own in a field of its own. */
export interface Drawn {
  readonly fields: object;
  /** The kind whose fields these are, where it is not the part's own. */
  readonly kind?: PartKind;
  /** What the maker calls fields that have another name in his file. */
  readonly words?: Readonly<Record<string, string>>;
  /** More fields that are no cut of this part. */
  readonly exact?: readonly string[];
}

/**
 * How a kind of part is cut, creased and glued by hand, where its fields alone don't tell. Without it, each number of a
 * part errs on its own (see `src/figure/template.ts`).
 */
export interface ByHand<Fields> {
  /**
   * Fields that are no cut: what is fitted to its counterpart as it is made, what is asked of the drawing alone, and
   * what only says where a part is drawn.
   */
  readonly exact?: readonly string[];
  /**
   * The part as drawn, where one field gives two things that are cut apart from each other, or where a length follows
   * from the open figure: it is drawn before anything is cut, and does not follow the errors of other parts.
   * @param assembly the exact figure, as far as this part
   */
  drawn?(fields: Fields, assembly: Assembly): Drawn;
  /** Outlines that the maker may draw. */
  edges?(name: string, fields: Fields): readonly DrawnEdge[];
}
