import * as z from 'zod';
import { isPlain } from '../text/plain-text.js';
import { label } from './label.js';

/**
 * The leaves of a part's fields. Any number may be arithmetic over dims, and any word or name may be a dim that
 * is a choice between words; so a leaf keeps what was written, and `src/figure` works it out for each candidate.
 */

/** A number as written: itself, the name of a dim, or arithmetic such as `2 * height - 4`. */
export class Quantity {
  constructor(
    readonly written: number | string,
    readonly unit: 'mm' | 'degrees' | '',
    /** Values outside least..most cannot be built: the candidate fails with a named reason. */
    readonly least: number,
    readonly most: number,
  ) {}
}

/** A word as written: one of `options`, or the name of a dim that chooses between them. Empty options: any name. */
export class Word<W extends string = string> {
  constructor(
    readonly written: string,
    readonly options: readonly W[],
    /** It says how a dummy is made by hand, and changes nothing of the figure as it is drawn. */
    readonly ofTheHand = false,
  ) {}
}

/** A leaf that is worked out to a value of some other shape than is written: a point, an outline. */
export abstract class Leaf<Value> {
  /** As written, with leaves of its own. */
  abstract readonly form: unknown;
  /** No leaf holds its value; this only tells its type. */
  declare readonly resolvesTo?: Value;
}

/** Field types with every leaf worked out for one candidate: quantities are numbers, words are strings. */
export type Resolved<T> = T extends Quantity
  ? number
  : T extends Leaf<infer Value>
    ? Value
    : T extends Word<infer W>
      ? W
      : T extends readonly unknown[] | object
        ? { [K in keyof T]: Resolved<T[K]> }
        : T;

const quantity = (unit: Quantity['unit'], least: number, most: number) =>
  z
    .union([z.number(), z.string()], { error: 'a number, a dim or arithmetic over dims' })
    .transform((written) => new Quantity(written, unit, least, most));

/** Longest length that a figure may hold, mm: about ten times the largest press sheet. */
export const LONGEST = 10_000;

/** A length or place, mm; may be negative. */
export const place = () => quantity('mm', -LONGEST, LONGEST);
/** A length, mm, zero included. */
export const length = () => quantity('mm', 0, LONGEST);
/** A length above zero, mm. Anything thinner than 0.01 mm is no card. */
export const size = () => quantity('mm', 0.01, LONGEST);
/** An angle in degrees between least and most. */
export const angle = (least = -360, most = 360) => quantity('degrees', least, most);
/** A plain number. */
export const plain = (least = -1e6, most = 1e6) => quantity('', least, most);

/** One of a few words, or a dim that chooses between them. */
export const word = <const W extends string>(...options: W[]) =>
  z
    .string({ error: `one of ${options.join(', ')}, or a dim that chooses between them` })
    .transform((written) => new Word<W>(written, options));

/** How its last tab is glued: by shutting the page on it, or where it was measured to lie. */
export const gluedField = () =>
  word('closed on', 'by measure')
    .transform(({ written, options }) => new Word(written, options, true))
    .prefault('closed on');

/** Longest name of a panel or crease: that of its part, and what the program puts behind it. */
const LONGEST_NAME_OF_PANEL = 120;

/** The name of a panel or crease, or a dim that chooses between names. */
export const name = () =>
  z
    .string({ error: 'a name' })
    .refine((text) => text.length <= LONGEST_NAME_OF_PANEL && isPlain(text), {
      error: `a name of at most ${LONGEST_NAME_OF_PANEL} characters, without control characters`,
    })
    .transform(anyName);

/** The name of a piece of card: a new one, or that of another piece, with which it is cut; or a dim that chooses. */
export const piece = () => label().transform(anyName);

const anyName = (written: string) => new Word<string>(written, []);

/** A point on a panel: [along its foot, up from its foot], mm. */
export const point = () => z.tuple([place(), place()], { error: 'a point [x, y] in mm' });
