import { ArithmeticError, FUNCTIONS } from '../figure/text/arithmetic-words.js';
import { valueAt } from '../figure/text/check.js';
import type { Path } from '../figure/text/input-error.js';
import { DIM_NAME, scan } from '../figure/text/scan.js';
import type { FigureSource } from '../figure/text/source.js';
import { withName } from '../figure/text/yaml-items.js';
import { withValue } from '../figure/text/yaml-write.js';
import { label } from '../parts/label.js';
import { partOf } from '../tune/part-names.js';
import { EditFault } from './edit-fault.js';
import { dimNames, mentionsIn, placeNames, writtenParts } from './mentions.js';
import { partNamed } from './remove.js';

/**
 * The text with another name for a part, wherever it, a panel or crease of it, or its piece is named.
 * @throws EditFault for a name that cannot be given
 */
export function renamePart(source: FigureSource, from: string, to: string): string {
  const parts = writtenParts(source);
  const part = partNamed(parts, from);
  if (to === from) return source.text;
  checkNewName(source, to);
  const names = parts.map(({ name }) => name);
  const choices = new Set(
    dimNames(source).filter((dim) => valueAt(source, ['dims', dim, 'choose']) !== undefined),
  );
  const places = new Set(placeNames(source));
  const renamed = mentionsIn(source).filter(({ kind, text, path }) => {
    if (kind !== 'name' && kind !== 'option') return false;
    if (kind === 'name' && choices.has(text)) return false;
    return path.at(-1) === 'piece' ? text === from : partOf(text, names) === from;
  });
  let text = withValue(source.text, [...part.path, 'name'], to);
  for (const mention of renamed) text = withValue(text, mention.path, to + mention.text.slice(from.length));
  for (const mention of mentionsIn(source)) {
    if (mention.kind !== 'number') continue;
    const now = renamedInMeasures(mention.text, (name) =>
      !places.has(name) && partOf(name, names) === from ? to + name.slice(from.length) : name,
    );
    if (now !== mention.text) text = withValue(text, mention.path, now);
  }
  const faces = ['faces', from];
  if (valueAt(source, faces) !== undefined) text = withFieldCalled(text, faces, to);
  const piece = ['card', 'pieces', from];
  return valueAt(source, piece) === undefined ? text : withFieldCalled(text, piece, to);
}

/** @throws EditFault for what no part may be called */
export function checkNewName(source: FigureSource, name: string): void {
  const read = label().safeParse(name);
  if (!read.success) throw new EditFault(`give ${read.error.issues[0].message}`);
  const names = writtenParts(source).map((part) => part.name);
  if (['gutter', 'left page', 'right page'].includes(name) || names.includes(name))
    throw new EditFault(`'${name}' is taken; give each part a name of its own`);
}

/**
 * The text with another name for a dim, wherever arithmetic or a word names it.
 * @throws EditFault for a name that cannot be given
 */
export function renameDim(source: FigureSource, from: string, to: string): string {
  const dims = dimNames(source);
  if (!dims.includes(from)) throw new EditFault(`there is no dim '${from}'`);
  if (to === from) return source.text;
  if (!DIM_NAME.test(to) || to.length > 40 || Object.hasOwn(FUNCTIONS, to))
    throw new EditFault('name a dim with letters, digits and _, the first no digit, at most 40 in all');
  if (dims.includes(to)) throw new EditFault(`'${to}' is taken; give each dim a name of its own`);
  let { text } = source;
  for (const mention of mentionsIn(source)) {
    const now =
      mention.kind === 'number' ? renamedIn(mention.text, from, to) : renamedWord(mention, from, to);
    if (now !== mention.text) text = withValue(text, mention.path, now);
  }
  return withFieldCalled(text, ['dims', from], to);
}

/** @throws EditFault for the one name that no field of a figure file may have */
function withFieldCalled(text: string, path: Path, to: string): string {
  if (to === '__proto__') throw new EditFault(`'${to}' can't be used here; give another name`);
  return withName(text, path, to);
}

const renamedWord = ({ kind, text }: { kind: string; text: string }, from: string, to: string): string =>
  kind !== 'option' && kind !== 'place' && text === from ? to : text;

/** Arithmetic with other names in what it measures on the figure, such as `length(man ridge)`. */
function renamedInMeasures(arithmetic: string, rename: (name: string) => string): string {
  return arithmetic.replace(
    /\b(distance|length|angle|heading|along|up)\(([^()]*)\)/g,
    (_, measure: string, names: string) =>
      `${measure}(${names
        .split(/(,\s*|\s+(?:to|on|at)\s+)/)
        .map((part, i) => (i % 2 === 0 ? rename(part) : part))
        .join('')})`,
  );
}

/** The words of arithmetic; none of what is no arithmetic at all, such as `middle` along a crease. */
function wordsOf(arithmetic: string) {
  try {
    return scan(arithmetic);
  } catch (error) {
    if (error instanceof ArithmeticError) return [];
    throw error;
  }
}

/** Arithmetic with something else in place of a dim. */
export function renamedIn(arithmetic: string, from: string, to: string): string {
  return wordsOf(arithmetic)
    .filter((word) => word.text === from)
    .reverse()
    .reduce((text, { at }) => text.slice(0, at) + to + text.slice(at + from.length), arithmetic);
}
