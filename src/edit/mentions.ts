import { ArithmeticError } from '../figure/text/arithmetic-words.js';
import { valueAt } from '../figure/text/check.js';
import type { Path } from '../figure/text/input-error.js';
import { takeMeasures } from '../figure/text/measures.js';
import { type FigureSource, type Json, parseFigure } from '../figure/text/source.js';
import { TWIN_OF, withTwins } from '../figure/twins.js';
import { Leaf, Quantity, Word } from '../parts/fields.js';
import { partKinds } from '../parts/index.js';

/** A text of the figure file that may name something. */
export interface Mention {
  readonly path: Path;
  readonly text: string;
  /** Arithmetic; the name of a panel, a crease, a piece; a place or line of the file; a word of a few; an option of a dim. */
  readonly kind: 'number' | 'name' | 'place' | 'word' | 'option';
}

/** A part as the file writes it. */
export interface WrittenPart {
  readonly name: string;
  readonly kind: string;
  readonly path: Path;
  readonly fields: { readonly [field: string]: Json };
}

/** The file as it is written, with outlines that are drawings left as they are. */
export function asWritten(source: FigureSource): FigureSource {
  const known = READ.get(source);
  if (known !== undefined) return known;
  const read = parseFigure(source.text, source.file);
  READ.set(source, read);
  return read;
}

/** A drag asks for the same file many times a second. */
const READ = new WeakMap<FigureSource, FigureSource>();

export function writtenParts(source: FigureSource): WrittenPart[] {
  const written = asWritten(source);
  // A twin is of the kind of the part whose twin it is.
  const whole = withTwins(written);
  return listOf(valueAt(written, ['parts'])).flatMap((fields, i) => {
    if (fields === null || typeof fields !== 'object' || Array.isArray(fields)) return [];
    const { name } = fields;
    const kind = valueAt(whole, ['parts', i, 'kind']);
    return [{ name: String(name), kind: String(kind), path: ['parts', i], fields }];
  });
}

/** Names of all dims, in file order. */
export const dimNames = (source: FigureSource): string[] =>
  Object.keys((valueAt(source, ['dims']) as object | null | undefined) ?? {});

/** Names of all places and lines, in file order. */
export const placeNames = (source: FigureSource): string[] =>
  Object.keys((valueAt(source, ['places']) as object | null | undefined) ?? {});

/** All texts that may name a dim, a part, a place, or something of a part. */
export function mentionsIn(source: FigureSource): Mention[] {
  const written = asWritten(source);
  const places = new Set(placeNames(written));
  return [
    ...inDims(written),
    ...asked(valueAt(written, ['places']) ?? null, ['places'], 'number', places),
    ...inParts(source, written, places),
    ...inWants(written, places),
    ...inList(written, 'trims', 'panel'),
    ...inList(written, 'art', 'on'),
  ];
}

/** Names of places, lines, panels and creases that arithmetic measures: `distance(hip to knee)`. */
export function namesMeasured(arithmetic: string): string[] {
  try {
    return takeMeasures(arithmetic).asked.flatMap(({ names }) => names);
  } catch (error) {
    if (error instanceof ArithmeticError) return [];
    throw error;
  }
}

function inDims(written: FigureSource): Mention[] {
  return dimNames(written).flatMap((name): Mention[] => {
    const path: Path = ['dims', name];
    const value = valueAt(written, path);
    if (typeof value === 'string') return [{ path, text: value, kind: 'number' }];
    return listOf(valueAt(written, [...path, 'choose'])).flatMap((option, i) =>
      typeof option === 'string' ? [{ path: [...path, 'choose', i], text: option, kind: 'option' }] : [],
    );
  });
}

function inParts(source: FigureSource, written: FigureSource, places: ReadonlySet<string>): Mention[] {
  return listOf(valueAt(withTwins(source), ['parts'])).flatMap((part, i) => {
    if (part === null || typeof part !== 'object' || Array.isArray(part)) return [];
    const { name: _, kind, ...fields } = part;
    const read = Object.hasOwn(partKinds, String(kind))
      ? partKinds[String(kind)].fields.safeParse(fields)
      : undefined;
    const twin = texts(valueAt(written, ['parts', i, TWIN_OF]) ?? null, ['parts', i, TWIN_OF], 'name');
    return read?.success ? [...twin, ...leaves(read.data, ['parts', i], written, null, places)] : twin;
  });
}

/** @param within what stands within a point, line or outline, where names may be those of places */
function leaves(
  value: unknown,
  path: Path,
  written: FigureSource,
  within: 'geometry' | null,
  places: ReadonlySet<string>,
): Mention[] {
  if (value instanceof Quantity || value instanceof Word) {
    const text = valueAt(written, path);
    if (typeof text !== 'string') return [];
    if (value instanceof Quantity) return [{ path, text, kind: 'number' }];
    if (value.options.length > 0) return [{ path, text, kind: 'word' }];
    return [{ path, text, kind: within && isPlace(text, path, places) ? 'place' : 'name' }];
  }
  if (value instanceof Leaf) return leaves(value.form, path, written, 'geometry', places);
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([field, inner]) =>
    leaves(inner, [...path, Array.isArray(value) ? Number(field) : field], written, within, places),
  );
}

/** Fields of what is asked of the figure that name panels only. */
const PANELS = new Set(['panel', 'crosses', 'crossing', 'mirror']);

/** Fields of what is asked of the figure that name a panel, a crease, a place or a line. */
const ASKED = new Set([
  ...PANELS,
  ...[
    'on',
    'from',
    'to',
    'toward',
    'between',
    'line',
    'through',
    'along',
    'square to',
    'meet',
    'around',
    'crease',
  ],
]);

/** Whether a name is that of a place or line of the file, which goes before a part of the same name. */
const isPlace = (text: string, path: Path, places: ReadonlySet<string>): boolean =>
  places.has(text) && !PANELS.has(String(path.findLast((step) => typeof step === 'string')));

/** Texts in what is asked of the figure: names where a field names something, else arithmetic. */
function asked(value: Json, path: Path, kind: 'name' | 'number', places: ReadonlySet<string>): Mention[] {
  if (typeof value === 'string')
    return [{ path, text: value, kind: kind === 'name' && isPlace(value, path, places) ? 'place' : kind }];
  if (value === null || typeof value !== 'object') return [];
  if (Array.isArray(value)) return value.flatMap((inner, i) => asked(inner, [...path, i], kind, places));
  return Object.entries(value).flatMap(([field, inner]) =>
    asked(inner, [...path, field], ASKED.has(field) ? 'name' : 'number', places),
  );
}

/** Fields of wants that name panels or slots; texts in points and lines are arithmetic. */
const NAMES = new Set(['panel', 'panels', 'reference', 'slot']);

function inWants(written: FigureSource, places: ReadonlySet<string>): Mention[] {
  return listOf(valueAt(written, ['wants'])).flatMap((want, i) =>
    Object.entries(want ?? {}).flatMap(([field, value]) => {
      const path: Path = ['wants', i, field];
      if (NAMES.has(field)) return texts(value, path, 'name');
      // A point's bare text is a place; a line's is an angle.
      if (field === 'point') return asked(value, path, typeof value === 'string' ? 'name' : 'number', places);
      return field === 'line' ? asked(value, path, 'number', places) : [];
    }),
  );
}

/** A name in each entry of a list. */
function inList(written: FigureSource, list: string, field: string): Mention[] {
  return listOf(valueAt(written, [list])).flatMap((_, i) =>
    texts(valueAt(written, [list, i, field]) ?? null, [list, i, field], 'name'),
  );
}

function texts(value: Json, path: Path, kind: Mention['kind']): Mention[] {
  if (typeof value === 'string') return [{ path, text: value, kind }];
  return Array.isArray(value) ? value.flatMap((inner, i) => texts(inner, [...path, i], kind)) : [];
}

export const listOf = (value: Json | undefined): readonly Json[] => (Array.isArray(value) ? value : []);
