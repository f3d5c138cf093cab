import type { FigureSource, Json } from '../figure/text/source.js';
import { withItem } from '../figure/text/yaml-items.js';
import { partOf } from '../tune/part-names.js';
import { EditFault } from './edit-fault.js';
import { mentionsIn, type WrittenPart, writtenParts } from './mentions.js';
import { partNamed } from './remove.js';
import { checkNewName } from './rename.js';

/** A part as it is to be written: name and kind first. */
export type NewPart = { readonly name: string; readonly kind: string } & { readonly [field: string]: Json };

/** The text with a part after all others. @throws EditFault for a name that is taken */
export function addPart(source: FigureSource, part: NewPart): string {
  checkNewName(source, part.name);
  return withItem(source.text, ['parts'], writtenParts(source).length, { ...part });
}

/** How far a copy lies from what it was made of, mm. */
const ASIDE = 10;

/**
 * The text with a part once more, right after it, a little farther along what it stands on.
 * @throws EditFault for a part that there is not, and a name that is taken
 */
export function duplicatePart(source: FigureSource, name: string, to = freeName(source, name)): string {
  const parts = writtenParts(source);
  const part = partNamed(parts, name);
  checkNewName(source, to);
  return withItem(source.text, ['parts'], parts.indexOf(part) + 1, moved({ ...part.fields, name: to }));
}

function moved(fields: { [field: string]: Json }): { [field: string]: Json } {
  const { at, from, to } = fields;
  if (from !== undefined && to !== undefined) return { ...fields, from: farther(from), to: farther(to) };
  return at === undefined ? fields : { ...fields, at: farther(at) };
}

/** Farther along: a place along a crease, or a point by both its numbers. */
function farther(value: Json): Json {
  if (Array.isArray(value)) return value.map(farther);
  if (typeof value === 'number') return Math.round(1e4 * (value + ASIDE)) / 1e4;
  return typeof value === 'string' ? `${value} + ${ASIDE}` : value;
}

/** A name that is not taken yet, made from another. */
export function freeName(source: FigureSource, name: string): string {
  const taken = new Set(writtenParts(source).map((part) => part.name));
  const stem = name.replace(/ \d+$/, '').slice(0, 55);
  if (!taken.has(stem)) return stem;
  for (let i = 2; ; i++) if (!taken.has(`${stem} ${i}`)) return `${stem} ${i}`;
}

/** Fields of two entries, the left side first. */
const PAIRS = new Set(['glue', 'panels', 'feet', 'widths', 'layers', 'outlines']);

/**
 * The text with the mirror image of a part in the plane of the gutter, right after it: left and right change places in
 * the panels and creases on which it stands, in what it has of either side, and on the pages across the gutter.
 * @throws EditFault for a part that there is not, and a name that is taken
 */
export function twinPart(source: FigureSource, name: string, to = freeName(source, `${name} twin`)): string {
  const parts = writtenParts(source);
  const part = partNamed(parts, name);
  checkNewName(source, to);
  const twin = mirrored(source, part, parts);
  const same = JSON.stringify(twin) === JSON.stringify(part.fields);
  return withItem(source.text, ['parts'], parts.indexOf(part) + 1, {
    ...(same ? moved(twin) : twin),
    name: to,
  });
}

function mirrored(
  source: FigureSource,
  part: WrittenPart,
  parts: readonly WrittenPart[],
): { [field: string]: Json } {
  const names = parts.map((each) => each.name);
  const isName = new Set(
    mentionsIn(source)
      .filter(({ kind, path }) => kind === 'name' && path[0] === 'parts' && path[1] === part.path[1])
      .map(({ path }) => path.join('.')),
  );
  const otherSide = (text: string): string => {
    if (text === 'left page') return 'right page';
    if (text === 'right page') return 'left page';
    const of = partOf(text, names);
    if (of === null) return text;
    return (
      of + text.slice(of.length).replace(/\b(left|right)\b/, (side) => (side === 'left' ? 'right' : 'left'))
    );
  };
  /** @param onPage whether points count across the gutter here */
  const within = (value: Json, path: string, onPage: boolean): Json => {
    if (typeof value === 'string') return isName.has(path) ? otherSide(value) : value;
    if (value === null || typeof value !== 'object') return value;
    if (Array.isArray(value)) {
      if (onPage && isPoint(value)) return [across(value[0]), value[1]];
      return value.map((inner, i) => within(inner, `${path}.${i}`, onPage));
    }
    const on = value.on ?? value.panel;
    const page = on === undefined ? onPage : on === 'left page' || on === 'right page';
    return Object.fromEntries(
      Object.entries(value).map(([field, inner]) => {
        const done = within(inner, `${path}.${field}`, page);
        if (page && field === 'turn') return [field, across(inner)];
        // Lengths have no side.
        if (field === 'size') return [field, inner];
        return [field, PAIRS.has(field) && Array.isArray(done) ? [...done].reverse() : done];
      }),
    );
  };
  const done = within(
    { ...part.fields },
    part.path.join('.'),
    part.kind === 'link' && part.fields.on === undefined,
  );
  const fields = cornered(done as { [field: string]: Json }, part);
  return part.kind === 'link' && part.fields.on === undefined ? { ...fields, on: 'right page' } : fields;
}

/** A rectangle on a page is given by its corner nearer the left: after mirroring that is the other one. */
function cornered(fields: { [field: string]: Json }, { kind, fields: { on, size } }: WrittenPart) {
  const { at, turn = 0 } = fields;
  if (kind !== 'stiffener' || !String(on).endsWith(' page') || !Array.isArray(at) || !Array.isArray(size))
    return fields;
  const [x, y] = at;
  const [long] = size;
  if (turn !== 0) throw new EditFault('a stiffener that is turned on a page has no twin yet: add it by hand');
  const corner = typeof x === 'number' && typeof long === 'number' ? x - long : `${x} - (${long})`;
  return { ...fields, at: [corner, y] };
}

const isPoint = (value: readonly Json[]): boolean =>
  value.length === 2 && value.every((inner) => typeof inner === 'number' || typeof inner === 'string');

function across(value: Json): Json {
  if (typeof value === 'number') return value === 0 ? 0 : -value;
  return typeof value === 'string' ? `-(${value})` : value;
}
