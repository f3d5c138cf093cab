import { valueAt } from '../figure/text/check.js';
import type { FigureSource } from '../figure/text/source.js';
import { partOf } from '../tune/part-names.js';
import { EditFault } from './edit-fault.js';
import { withoutField, withoutItem } from './items.js';
import { asWritten, listOf, mentionsIn, type WrittenPart, writtenParts } from './mentions.js';

/** What goes when a part goes: the part itself, what stands on it, and wants and trims of these. */
export interface Going {
  readonly parts: readonly string[];
  readonly wants: readonly string[];
  /** How many trims. */
  readonly trims: number;
}

/**
 * What goes with a part, for the maker to see before it is removed.
 * @throws EditFault for a part that there is not
 */
export function goingWith(source: FigureSource, name: string): Going {
  const parts = writtenParts(source);
  partNamed(parts, name);
  const names = parts.map((part) => part.name);
  const gone = new Set([name]);
  const named = mentionsIn(source).filter(({ kind, path }) => kind === 'name' && path.at(-1) !== 'piece');
  const goes = (section: string, i: number) =>
    named.some(({ path, text }) => {
      const of = partOf(text, names);
      return path[0] === section && path[1] === i && of !== null && gone.has(of);
    });
  // A set that grows while it is gone through: what stands on what stands on it goes as well.
  for (let before = -1; before < gone.size; ) {
    before = gone.size;
    for (const [i, part] of parts.entries()) if (goes('parts', i)) gone.add(part.name);
  }
  const written = asWritten(source);
  return {
    parts: names.filter((each) => gone.has(each)),
    wants: listOf(valueAt(written, ['wants'])).flatMap((want, i) =>
      goes('wants', i) ? [String((want as { name?: unknown }).name)] : [],
    ),
    trims: listOf(valueAt(written, ['trims'])).filter((_, i) => goes('trims', i)).length,
  };
}

/**
 * The text without a part and all that goes with it. Dims stay.
 * @throws EditFault where no part would be left
 */
export function removePart(source: FigureSource, name: string): string {
  const going = goingWith(source, name);
  const parts = writtenParts(source);
  if (going.parts.length === parts.length)
    throw new EditFault(`a figure has one part or more: ${name} is what all others stand on`);
  const names = parts.map((part) => part.name);
  const gone = new Set(going.parts);
  const trims = listOf(valueAt(asWritten(source), ['trims'])).flatMap((trim, i) => {
    const of = partOf(String((trim as { panel?: unknown } | null)?.panel), names);
    return of !== null && gone.has(of) ? [i] : [];
  });
  const wants = listOf(valueAt(asWritten(source), ['wants'])).flatMap((want, i) =>
    going.wants.includes(String((want as { name?: unknown } | null)?.name)) ? [i] : [],
  );
  let { text } = source;
  // From the last on, so that places stay.
  for (const i of trims.reverse()) text = withoutItem(text, ['trims'], i);
  for (const i of wants.reverse()) text = withoutItem(text, ['wants'], i);
  for (let i = parts.length - 1; i >= 0; i--)
    if (gone.has(parts[i].name)) text = withoutItem(text, ['parts'], i);
  return withoutCardOf(text, source, parts, gone);
}

/** Card that was given to a piece of which nothing is left. */
function withoutCardOf(
  text: string,
  source: FigureSource,
  parts: readonly WrittenPart[],
  gone: ReadonlySet<string>,
): string {
  const pieceOf = ({ name, fields }: WrittenPart) => String(fields.piece ?? name);
  const left = new Set(parts.filter(({ name }) => !gone.has(name)).map(pieceOf));
  const pieces = Object.keys((valueAt(source, ['card', 'pieces']) as object | null | undefined) ?? {});
  const lost = parts.filter(({ name }) => gone.has(name)).map(pieceOf);
  const idle = pieces.filter((piece) => lost.includes(piece) && !left.has(piece));
  if (idle.length > 0 && idle.length === pieces.length) return withoutField(text, ['card', 'pieces']);
  return idle.reduce((rest, piece) => withoutField(rest, ['card', 'pieces', piece]), text);
}

/** @throws EditFault with the parts that there are */
export function partNamed(parts: readonly WrittenPart[], name: string): WrittenPart {
  const found = parts.find((part) => part.name === name);
  if (found !== undefined) return found;
  throw new EditFault(
    `there is no part '${name}'; the parts are ${parts.map((part) => part.name).join(', ')}`,
  );
}
