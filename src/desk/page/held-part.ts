import { asWritten, listOf } from '../../edit/mentions.js';
import { valueAt } from '../../figure/text/check.js';
import type { Path } from '../../figure/text/input-error.js';
import type { FigureSource, Json } from '../../figure/text/source.js';
import { TWIN_OF, withTwins } from '../../figure/twins.js';
import { type Field, isFields } from './point-handles.js';

/** A part with the fields that it takes over as a twin. */
export interface HeldPart {
  readonly name: string;
  readonly kind: string;
  readonly fields: { readonly [field: string]: Json };
  /** Where a field stands: of a twin maybe in the part whose twin it is. */
  pathOf(field: string): Path;
}

/** The parts of a file, in its order. */
export function heldParts(source: FigureSource): HeldPart[] {
  const written = asWritten(source);
  const own = listOf(valueAt(written, ['parts'])).map((part) => (isFields(part) ? part : {}));
  const placeOfField = (i: number, field: string): Path => {
    if (Object.hasOwn(own[i], field) || !Object.hasOwn(own[i], TWIN_OF)) return ['parts', i, field];
    const of = own.findIndex(({ name }) => name === own[i][TWIN_OF]);
    return of < 0 || of >= i ? ['parts', i, field] : placeOfField(of, field);
  };
  return listOf(valueAt(withTwins(written), ['parts'])).flatMap((fields, i) =>
    isFields(fields)
      ? [
          {
            name: String(fields.name),
            kind: String(fields.kind),
            fields,
            pathOf: (field: string) => placeOfField(i, field),
          },
        ]
      : [],
  );
}

export const fieldOf = ({ fields, pathOf }: HeldPart, name: string): Field => ({
  value: fields[name],
  path: pathOf(name),
});

/** That of one side of a pair, left (0) or right, for which one number may stand. */
export function sideOf(part: HeldPart, name: string, side: number): Field {
  const { value, path } = fieldOf(part, name);
  return Array.isArray(value) ? { value: value[side], path: [...path, side] } : { value, path };
}
