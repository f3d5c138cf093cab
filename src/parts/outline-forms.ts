import * as z from 'zod';
import { Leaf, length, name, point, type Quantity, type Word, word } from './fields.js';
import { type LineForm, lineFields, type PointForm, pointFields } from './spots.js';

/** An outline as written, in any of its forms; worked out to the corners of a polygon. */
export class Outline extends Leaf<OutlineFields> {
  constructor(
    readonly form: OutlineForm,
    /** The field beside it that names the panel on which it is drawn; empty for the part's own. */
    readonly panel: string,
  ) {
    super();
  }
}

/** An outline worked out: corners [along, up] in mm; without a polygon, the part's own shape. */
export interface OutlineFields {
  readonly polygon?: readonly (readonly [number, number])[];
  readonly holes?: readonly (readonly (readonly [number, number])[])[];
  /** Whether card is added around what stands on the panel, and with what margin, mm; `GROWN` if not given. */
  readonly grow?: 'yes' | 'no';
  readonly margin?: number;
}

export type OutlineForm = readonly PointForm[] | OutlineFormFields;

/** `polygon`, with holes; or `around` what lies on the panel; or the `mirror` of another panel. Each may `grow`. */
export interface OutlineFormFields {
  readonly polygon?: readonly PointForm[];
  readonly holes?: readonly (readonly PointForm[])[];
  readonly around?: readonly (PointForm | LineForm)[];
  readonly corners?: Word<'round' | 'straight'>;
  readonly margin?: Quantity;
  readonly mirror?: Word;
  readonly grow?: Word<'yes' | 'no'>;
}

const corner = z.union([point(), name(), pointFields], {
  error: 'a corner [x, y] in mm, the name of a place, or { on: ridge, at: [along, off it] }',
});
const ring = () => z.array(corner).min(3);
const AN_OUTLINE =
  'an outline: [[x, y], [x, y], [x, y], …], { polygon: […], holes: […] }, { around: […], margin: … }, { mirror: … } or { svg: …, path: … }';

const fields = z
  .strictObject({
    polygon: ring().optional(),
    holes: z.array(ring()).optional(),
    around: z
      .array(z.union([point(), name(), pointFields, lineFields]))
      .min(1)
      .optional(),
    corners: word('round', 'straight').optional(),
    margin: length().optional(),
    mirror: name().optional(),
    grow: word('yes', 'no').optional(),
  })
  .refine(
    ({ polygon, around, mirror, grow }) => {
      const ways = [polygon, around, mirror].filter((way) => way !== undefined).length;
      // What grows may begin with the part's own shape.
      return ways === 1 || (ways === 0 && grow !== undefined);
    },
    { error: 'one of polygon, around and mirror' },
  );

/** An outline on the part's own panel, or on the panel that the field `panel` names. */
export const outlineOn = (panel = '') =>
  z.union([ring(), fields], { error: AN_OUTLINE }).transform((form): Outline => new Outline(form, panel));
