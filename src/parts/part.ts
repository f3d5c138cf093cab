import type * as z from 'zod';
import type { Assembly } from '../motion/assembly.js';
import type { ByHand } from './by-hand.js';
import type { Resolved } from './fields.js';

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
  /** What errs on its own when it is cut by hand, where the fields alone don't tell. */
  readonly byHand?: ByHand<object>;
}

/** A kind as its file declares it: it knows the types of its own fields. */
interface Declared<Fields extends z.ZodType> extends PartKind {
  readonly fields: Fields;
  build(name: string, fields: Own<Fields>, assembly: Assembly): void;
  readonly byHand?: ByHand<Own<Fields>>;
}

type Own<Fields extends z.ZodType> = Resolved<z.output<Fields>> & object;

/** Keeps the fields' types while a kind is declared; whoever uses it goes by the schema. */
export const partKind = <Fields extends z.ZodType>(kind: Declared<Fields>): PartKind => kind;
