import type * as z from 'zod';
import type { Assembly } from '../motion/assembly.js';
import type { DrawnEdge } from './by-hand.js';
import type { Resolved } from './fields.js';
import type { Filled } from './shut.js';

/**
 * One kind of part: its fields as a figure file holds them, and what it adds to the assembly of one candidate.
 * A new kind is one file that exports such an object, and one line in `index.ts`.
 */
export interface PartKind {
  /** As written in the figure file's `kind`. */
  readonly kind: string;
  /** Its fields beside `name` and `kind`. */
  readonly fields: z.ZodType;
  /**
   * Adds panels, tabs, joints, creases and motion steps. Throws CannotBuild with the field that is at fault.
   * @param fields as `fields` reads them, with the numbers of one candidate
   */
  build(name: string, fields: object, assembly: Assembly): void;
  /** Its fields with sizes filled in that the file leaves out so that it shuts, and which these are. */
  complete?(fields: object): Completed;
  /** What errs on its own when it is cut by hand, where the fields alone don't tell. */
  readonly byHand?: ByHand<object>;
}

/** Fields in which nothing is left out any more. */
export interface Completed {
  readonly fields: object;
  readonly filled: readonly Filled[];
}

/** A kind as its file declares it: it knows the types of its own fields. */
interface Declared<Fields extends z.ZodType> extends PartKind {
  readonly fields: Fields;
  build(name: string, fields: Own<Fields>, assembly: Assembly): void;
  complete?(fields: Own<Fields>): Completed;
  readonly byHand?: ByHand<Own<Fields>>;
}

type Own<Fields extends z.ZodType> = Resolved<z.output<Fields>> & object;

/** Keeps the fields' types while a kind is declared; whoever uses it goes by the schema. */
export const partKind = <Fields extends z.ZodType>(kind: Declared<Fields>): PartKind => kind;

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
  /**
   * Its last tab, which is glued by shutting the page on it unless it is glued by measure: the dotted path of the field that
   * says where it comes to lie (null: none), and the fields of a dummy as that takes up what the rest of it is off.
   * @param drawn and cut: its fields as drawn, and with all errors @param assembly the dummy, as far as this part, and the
   * drawing, with all parts
   */
  readonly closing?: {
    field(fields: Fields): string | null;
    settle(drawn: Fields, cut: Fields, assembly: Assembly, drawing: Assembly): Fields;
  };
  /** Outlines that the maker may draw. */
  edges?(name: string, fields: Fields): readonly DrawnEdge[];
}
