import { valueAt } from '../figure/text/check.js';
import type { Path } from '../figure/text/input-error.js';
import { type FigureSource, type Json, parseFigure } from '../figure/text/source.js';
import { TWIN_OF, withTwins } from '../figure/twins.js';
import { Leaf, Quantity, Word } from '../parts/fields.js';
import { partKinds } from '../parts/index.js';

/** A text of the figure file that may name something. */
export interface Mention {
  readonly path: Path;
  readonly text: string;
  /** Arithmetic; the name of a panel, a crease, a piece; a word of a few; or one of the options of a dim. */
  readonly kind: 'number' | 'name' | 'word' | 'option';
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

/** All texts that may name a dim, a part, or something of a part. */
export function mentionsIn(source: FigureSource): Mention[] {
  const written = asWritten(source);
  return [
    ...inDims(written),
    ...asked(valueAt(written, ['places']) ?? null, ['places'], 'number'),
    ...inParts(source, written),
    ...inWants(written),
    ...inTrims(written),
  ];
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

function inParts(source: FigureSource, written: FigureSource): Mention[] {
  return listOf(valueAt(withTwins(source), ['parts'])).flatMap((part, i) => {
    if (part === null || typeof part !== 'object' || Array.isArray(part)) return [];
    const { name: _, kind, ...fields } = part;
    const read = Object.hasOwn(partKinds, String(kind))
      ? partKinds[String(kind)].fields.safeParse(fields)
      : undefined;
    const twin = texts(valueAt(written, ['parts', i, TWIN_OF]) ?? null, ['parts', i, TWIN_OF], 'name');
    return read?.success ? [...twin, ...leaves(read.data, ['parts', i], written)] : twin;
  });
}

function leaves(value: unknown, path: Path, written: FigureSource): Mention[] {
  if (value instanceof Quantity || value instanceof Word) {
    const text = valueAt(written, path);
    if (typeof text !== 'string') return [];
    if (value instanceof Quantity) return [{ path, text, kind: 'number' }];
    return [{ path, text, kind: value.options.length === 0 ? 'name' : 'word' }];
  }
  if (value instanceof Leaf) return leaves(value.form, path, written);
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([field, inner]) =>
    leaves(inner, [...path, Array.isArray(value) ? Number(field) : field], written),
  );
}

/** Fields of what is asked of the figure that name a panel, a crease, a place or a line. */
const ASKED = new Set([
  ...['on', 'panel', 'from', 'to', 'toward', 'between', 'line', 'crosses', 'through', 'along', 'square to'],
  ...['meet', 'crossing', 'around', 'crease'],
]);

/** Texts in what is asked of the figure: names where a field names something, else arithmetic. */
function asked(value: Json, path: Path, kind: 'name' | 'number'): Mention[] {
  if (typeof value === 'string') return [{ path, text: value, kind }];
  if (value === null || typeof value !== 'object') return [];
  if (Array.isArray(value)) return value.flatMap((inner, i) => asked(inner, [...path, i], kind));
  return Object.entries(value).flatMap(([field, inner]) =>
    asked(inner, [...path, field], ASKED.has(field) ? 'name' : 'number'),
  );
}

/** Fields of wants that name panels; texts in points and lines are arithmetic. */
const NAMES = new Set(['panel', 'panels', 'reference']);

function inWants(written: FigureSource): Mention[] {
  return listOf(valueAt(written, ['wants'])).flatMap((want, i) =>
    Object.entries(want ?? {}).flatMap(([field, value]) => {
      if (NAMES.has(field)) return texts(value, ['wants', i, field], 'name');
      return field === 'point' || field === 'line' ? asked(value, ['wants', i, field], 'number') : [];
    }),
  );
}

function inTrims(written: FigureSource): Mention[] {
  return listOf(valueAt(written, ['trims'])).flatMap((_, i) =>
    texts(valueAt(written, ['trims', i, 'panel']) ?? null, ['trims', i, 'panel'], 'name'),
  );
}

function texts(value: Json, path: Path, kind: Mention['kind']): Mention[] {
  if (typeof value === 'string') return [{ path, text: value, kind }];
  return Array.isArray(value) ? value.flatMap((inner, i) => texts(inner, [...path, i], kind)) : [];
}

export const listOf = (value: Json | undefined): readonly Json[] => (Array.isArray(value) ? value : []);
