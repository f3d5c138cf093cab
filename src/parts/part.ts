import type * as z from 'zod';
import type { Assembly } from '../motion/assembly.js';
import type { ByHand } from './by-hand.js';
import type { Resolved } from './fields.js';

/**
 * One kind of part: its fields as a figure file holds them, and what it adds to the assembly of one candidate.
 * A new kind is one file that exports such an object, and one line in `index.ts`.
 */
export interface PartKind<Fields extends z.ZodType = z.ZodType> {
  /** As written in the figure file's `kind`. */
  readonly kind: string;
  /** Its fields beside `name` and `kind`. */
  readonly fields: Fields;
  /** Adds panels, tabs, joints, creases and motion steps. Throws CannotBuild with the field that is at fault. */
  build(name: string, fields: Resolved<z.output<Fields>>, assembly: Assembly): void;
  /** What errs on its own when it is cut by hand, where the fields alone don't tell. */
  readonly byHand?: ByHand<Resolved<z.output<Fields>>>;
}

/** Keeps the fields' types while a kind is declared. */
export const partKind = <Fields extends z.ZodType>(kind: PartKind<Fields>): PartKind<Fields> => kind;
