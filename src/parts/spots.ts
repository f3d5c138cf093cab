import * as z from 'zod';
import { angle, Leaf, LONGEST, length, name, place, Quantity, size, type Word, word } from './fields.js';

/**
 * Points and lines that a figure file may ask of the open figure: leaves, as those of `fields.ts`. `src/figure/measured`
 * works them out for each candidate, as [along, up] of the panel on which they are wanted.
 */

/** A place along a line, mm from its start, as written; its arithmetic may use the words start, middle and end. */
export class Along extends Quantity {
  constructor(
    written: number | string,
    least: number,
    most: number,
    /** The field beside it that names the crease it counts along; empty where it stands in a point. */
    readonly crease: string,
    /** The field beside it whose length is to fit on the crease too; empty for none. */
    readonly room: string,
  ) {
    super(written, 'mm', least, most);
  }
}

/** A point as written: where something lies in the open figure, or at another page angle. */
export class Spot extends Leaf<[number, number]> {
  constructor(
    readonly form: PointForm,
    /** The field beside it that names the panel on which it is wanted. */
    readonly panel: string,
  ) {
    super();
  }
}

/** A line as written. */
export class Stroke extends Leaf<[[number, number], [number, number]]> {
  constructor(
    readonly form: LineForm,
    /** As of a Spot. */
    readonly panel: string,
  ) {
    super();
  }
}

/** The angle of a line from the crease that the field `on` beside it names, degrees, given as the line. */
export class GlueLine extends Leaf<number> {
  constructor(readonly form: LineFields) {
    super();
  }
}

export type PointForm = Word | readonly [Quantity, Quantity] | PointFields;

/** One of the ways to give a point; which, tell the fields that are given. */
export interface PointFields {
  /** `on`, `at`: of a panel, its [along, up]; of a crease or line, so far along it, or [along, off it]. */
  readonly on?: LineForm;
  readonly at?: Along | readonly [Along, Quantity];
  /** The panel on which it is drawn, where that is not the one on which it is wanted. */
  readonly panel?: Word;
  /** The page angle, degrees; open if left out. */
  readonly opened?: Quantity;
  /** Where two lines meet. */
  readonly meet?: readonly [LineForm, LineForm];
  /** `line`, `crosses`: where a line in space goes through a panel. */
  readonly line?: LineForm;
  readonly crosses?: Word;
  /** `from`, `far`, with `turn` or `toward`, or `on` a line: so far from a point. */
  readonly from?: PointForm;
  readonly toward?: PointForm;
  readonly turn?: Quantity;
  readonly far?: Quantity | readonly [Quantity, Quantity];
  /** `between`, two values of `far`, `side`: so far from each of two points. */
  readonly between?: readonly [PointForm, PointForm];
  readonly side?: Word<'left' | 'right' | 'start' | 'end'>;
}

export type LineForm = Word | readonly [PointForm, PointForm] | LineFields;

/** One of the ways to give a line. */
export interface LineFields {
  readonly from?: PointForm;
  readonly to?: PointForm;
  readonly turn?: Quantity;
  readonly far?: Quantity;
  readonly through?: PointForm;
  readonly along?: LineForm;
  readonly 'square to'?: LineForm;
  /** The line in which the planes of two panels meet. */
  readonly crossing?: readonly [Word, Word];
  readonly crease?: Word;
  readonly opened?: Quantity;
}

const along = () =>
  z
    .union([z.number(), z.string()], { error: "mm from its start, or arithmetic such as 'end - 12'" })
    .transform((written) => new Along(written, -LONGEST, LONGEST, '', ''));

/** A place along the crease that the field `crease` names, with the words start, middle and end. */
export const placeAlong = (crease: string, room = '', least = -LONGEST) =>
  z
    .union([z.number(), z.string()], { error: "a number, arithmetic, middle, or such as 'end - 12'" })
    .transform((written) => new Along(written, least, LONGEST, crease, room));

const A_POINT = 'a point [x, y] in mm, the name of a place, or { on: …, at: … }';
const A_LINE = 'a line: two points, the name of a crease or line, or { from: …, to: … }';

const pointForm: z.ZodType<PointForm> = z.lazy(() =>
  z.union([name(), z.tuple([place(), place()]), pointFields], { error: A_POINT }),
);

const lineForm: z.ZodType<LineForm> = z.lazy(() =>
  z.union([name(), z.tuple([pointForm, pointForm]), lineFields], { error: A_LINE }),
);

const opened = () => angle(0, 180).optional();
const distance = () => size();

const pointFields = z.strictObject({
  on: lineForm.optional(),
  at: z
    .union([along(), z.tuple([along(), place()])], { error: "[along, up], or such as 'end - 12'" })
    .optional(),
  panel: name().optional(),
  opened: opened(),
  meet: z.tuple([lineForm, lineForm]).optional(),
  line: lineForm.optional(),
  crosses: name().optional(),
  from: pointForm.optional(),
  toward: pointForm.optional(),
  turn: angle().optional(),
  far: z.union([length(), z.tuple([distance(), distance()])], { error: 'mm, or two lengths' }).optional(),
  between: z.tuple([pointForm, pointForm]).optional(),
  side: word('left', 'right', 'start', 'end').optional(),
});

const lineFields = z.strictObject({
  from: pointForm.optional(),
  to: pointForm.optional(),
  turn: angle().optional(),
  far: distance().optional(),
  through: pointForm.optional(),
  along: lineForm.optional(),
  'square to': lineForm.optional(),
  crossing: z.tuple([name(), name()]).optional(),
  crease: name().optional(),
  opened: opened(),
});

/** A point on the panel that the field `panel` names: [x, y], or wherever something lies in the open figure. */
export const pointOn = (panel: string) =>
  z.union(
    [
      z.tuple([place(), place()]),
      z.union([name(), pointFields]).transform((form: Word | PointFields) => new Spot(form, panel)),
    ],
    { error: A_POINT },
  );

/** A line on the panel that the field `panel` names. */
export const lineOn = (panel: string) =>
  z.union(
    [
      z.tuple([pointOn(panel), pointOn(panel)]),
      z.union([name(), lineFields]).transform((form: Word | LineFields) => new Stroke(form, panel)),
    ],
    { error: A_LINE },
  );

/** A line on that panel whose name must not be given as bare text, which means an angle there. */
export const lineFieldsOn = (panel: string) =>
  z.union(
    [z.tuple([pointOn(panel), pointOn(panel)]), lineFields.transform((form) => new Stroke(form, panel))],
    { error: A_LINE },
  );

/** Angle of a glue line from its crease; or the line itself, from one place to another. */
export const glueAngle = () =>
  z.union(
    [
      angle(0.5, 179.5),
      z.strictObject({ from: pointForm, to: pointForm }).transform((form) => new GlueLine(form)),
    ],
    { error: 'an angle, or the line itself: { from: …, to: … }' },
  );

export { lineFields, lineForm, pointFields, pointForm };
