import { valueAt } from '../figure/text/check.js';
import type { Path } from '../figure/text/input-error.js';
import type { FigureSource } from '../figure/text/source.js';
import { withoutField, withoutItem } from '../figure/text/yaml-items.js';
import { partOf } from '../tune/part-names.js';
import { EditFault } from './edit-fault.js';
import {
  asWritten,
  listOf,
  type Mention,
  mentionsIn,
  namesMeasured,
  placeNames,
  type WrittenPart,
  writtenParts,
} from './mentions.js';

/** What goes when a part goes: the part itself, what stands on it or is measured on it, and wants, trims and art of these. */
export interface Going {
  readonly parts: readonly string[];
  readonly places: readonly string[];
  readonly wants: readonly string[];
  /** How many. */
  readonly trims: number;
  readonly art: number;
}

/**
 * What goes with a part, for the maker to see before it is removed.
 * @throws EditFault for a part that there is not
 */
export function goingWith(source: FigureSource, name: string): Going {
  const written = asWritten(source);
  partNamed(writtenParts(source), name);
  const { parts, places, entries } = whatGoes(source, name);
  return {
    parts: writtenParts(source).flatMap((part) => (parts.has(part.name) ? [part.name] : [])),
    places: placeNames(written).filter((place) => places.has(place)),
    wants: entries('wants').map((i) => String(valueAt(written, ['wants', i, 'name']))),
    trims: entries('trims').length,
    art: entries('art').length,
  };
}

/** @returns names of parts and places that go, which entries of a list of the file do, and names in lists of art */
function whatGoes(source: FigureSource, name: string) {
  const written = asWritten(source);
  const names = writtenParts(source).map((part) => part.name);
  const [parts, places] = [new Set([name]), new Set<string>()];
  const known = new Set(placeNames(written));
  const isGone = (text: string) => {
    const of = partOf(text, names);
    return of !== null && parts.has(of);
  };
  const optionsOf = (dim: string) => listOf(valueAt(written, ['dims', dim, 'choose'])).map(String);
  const mentions = mentionsIn(source).filter(({ path }) => path.at(-1) !== 'piece');
  const namesGone = ({ kind, text }: Mention): boolean => {
    // A dim that chooses between panels, one of which goes, is no longer a choice.
    if (kind === 'name') return [text, ...optionsOf(text)].some(isGone);
    if (kind === 'place') return places.has(text);
    const measured = kind === 'number' ? namesMeasured(text) : [];
    return measured.some((each) => places.has(each) || (!known.has(each) && isGone(each)));
  };
  const goes = (section: string, step: string | number) => {
    const own = mentions.filter(({ path }) => path[0] === section && path[1] === step);
    // Art stays on those of its panels that stay.
    return section === 'art' ? own.length > 0 && own.every(namesGone) : own.some(namesGone);
  };
  // Sets that grow while they are gone through: what stands on what stands on it goes as well.
  for (let before = -1; before < parts.size + places.size; ) {
    before = parts.size + places.size;
    for (const [i, part] of names.entries()) if (goes('parts', i)) parts.add(part);
    for (const place of known) if (goes('places', place)) places.add(place);
  }
  const entries = (list: string): number[] =>
    listOf(valueAt(written, [list])).flatMap((_, i) => (goes(list, i) ? [i] : []));
  const bared = mentions.filter(({ path }) => path[0] === 'art' && path.length === 4).filter(namesGone);
  return { parts, places, entries, bared: bared.map(({ path }) => path) };
}

/**
 * The text without a part and all that goes with it. Dims stay.
 * @throws EditFault where no part would be left
 */
export function removePart(source: FigureSource, name: string): string {
  const parts = writtenParts(source);
  partNamed(parts, name);
  const going = whatGoes(source, name);
  if (going.parts.size === parts.length)
    throw new EditFault(`a figure has one part or more: ${name} is what all others stand on`);
  let { text } = source;
  // From the last on, so that places stay.
  for (const path of going.bared.reverse())
    if (!going.entries('art').includes(Number(path[1])))
      text = withoutItem(text, path.slice(0, 3), Number(path[3]));
  for (const list of ['art', 'trims', 'wants'])
    for (const i of going.entries(list).reverse()) text = withoutItem(text, [list], i);
  for (let i = parts.length - 1; i >= 0; i--)
    if (going.parts.has(parts[i].name)) text = withoutItem(text, ['parts'], i);
  const kept = placeNames(asWritten(source)).length > going.places.size;
  if (!kept && going.places.size > 0) text = withoutField(text, ['places']);
  else for (const place of going.places) text = withoutField(text, ['places', place]);
  return withoutCardOf(text, source, parts, going.parts);
}

/** The text without the trims of a panel: its card is there again. @throws EditFault where it has none */
export function untrimPanel(source: FigureSource, panel: string): string {
  const trims = listOf(valueAt(asWritten(source), ['trims']));
  const own = trims.flatMap((_, i) =>
    valueAt(asWritten(source), ['trims', i, 'panel']) === panel ? [i] : [],
  );
  if (own.length === 0) throw new EditFault(`nothing is trimmed from '${panel}'`);
  return own.reduceRight((text, i) => withoutItem(text, ['trims'], i), source.text);
}

/** Card and faces that were given to a piece of which nothing is left. */
function withoutCardOf(
  text: string,
  source: FigureSource,
  parts: readonly WrittenPart[],
  gone: ReadonlySet<string>,
): string {
  const pieceOf = ({ name, fields }: WrittenPart) => String(fields.piece ?? name);
  const left = new Set(parts.filter(({ name }) => !gone.has(name)).map(pieceOf));
  const lost = parts.filter(({ name }) => gone.has(name)).map(pieceOf);
  const holders: readonly Path[] = [['card', 'pieces'], ['faces']];
  return holders.reduce((before, holder) => {
    const pieces = Object.keys((valueAt(source, holder) as object | null | undefined) ?? {});
    const idle = pieces.filter((piece) => lost.includes(piece) && !left.has(piece));
    if (idle.length > 0 && idle.length === pieces.length) return withoutField(before, holder);
    return idle.reduce((rest, piece) => withoutField(rest, [...holder, piece]), before);
  }, text);
}

/** @throws EditFault with the parts that there are */
export function partNamed(parts: readonly WrittenPart[], name: string): WrittenPart {
  const found = parts.find((part) => part.name === name);
  if (found !== undefined) return found;
  throw new EditFault(
    `there is no part '${name}'; the parts are ${parts.map((part) => part.name).join(', ')}`,
  );
}
