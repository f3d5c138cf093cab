import { FUNCTIONS } from '../figure/text/arithmetic-words.js';
import { valueAt } from '../figure/text/check.js';
import type { Path } from '../figure/text/input-error.js';
import type { FigureSource, Json } from '../figure/text/source.js';
import { withDim, withoutField } from '../figure/text/yaml-items.js';
import { withValue } from '../figure/text/yaml-write.js';
import { LONGEST } from '../parts/fields.js';
import { EditFault } from './edit-fault.js';
import { asWritten, dimNames, mentionsIn, writtenParts } from './mentions.js';
import { renamedIn } from './rename.js';

/** From where to where a dim may go, mm or degrees. */
export interface Range {
  readonly from: number;
  readonly to: number;
}

/**
 * Makes a range of a number: of a dim in its place, of numbers written in parts by a new dim, one for all of them.
 * @param paths where it stands: one dim, or one number or several equal ones of parts
 * @returns the text, and the name of the dim
 * @throws EditFault for what is no number, and where the range does not hold it
 */
export function makeRange(source: FigureSource, paths: readonly Path[], { from, to }: Range): Named {
  const now = numberAt(source, paths);
  if (!(from < to && now >= from && now <= to && Math.abs(from) <= LONGEST && Math.abs(to) <= LONGEST))
    throw new EditFault(`give a range that holds ${now}, from less to more`);
  return asDim(source, paths, { from, to, start: now });
}

/** Makes a dim of one number of a part, or of several equal ones. @throws EditFault for what is no number there */
export function makeDim(source: FigureSource, paths: readonly Path[]): Named {
  return asDim(source, paths, numberAt(source, paths));
}

/** A text, and the name of the dim that it has for what was asked. */
export interface Named {
  readonly text: string;
  readonly dim: string;
}

function asDim(source: FigureSource, paths: readonly Path[], value: Json): Named {
  const [[section, dim]] = paths;
  if (section === 'dims') return { text: withValue(source.text, paths[0], value), dim: String(dim) };
  const name = newDimName(source, paths[0]);
  const text = paths.reduce((rest, path) => withValue(rest, path, name), source.text);
  return { text: withDim(text, name, value), dim: name };
}

function numberAt(source: FigureSource, paths: readonly Path[]): number {
  const values = paths.map((path) => valueAt(asWritten(source), path));
  const [first] = values;
  if (typeof first !== 'number') throw new EditFault(`${paths[0]?.join('.') ?? 'nothing'} is no number`);
  if (values.some((value) => value !== first)) throw new EditFault('one dim stands for equal numbers only');
  return first;
}

/** Fixes a range, or a choice between numbers, at a value. @throws EditFault for a dim that is neither */
export function fixDim(source: FigureSource, name: string, value: number): string {
  const written = valueAt(source, ['dims', name]);
  if (written === null || typeof written !== 'object') throw new EditFault(`'${name}' is not a range`);
  return withValue(source.text, ['dims', name], value);
}

/**
 * Writes a dim that is a number out wherever it is used, and takes it away.
 * @throws EditFault for a dim that is no number
 */
export function writeOut(source: FigureSource, name: string): string {
  const value = valueAt(source, ['dims', name]);
  if (typeof value !== 'number') throw new EditFault(`'${name}' is no number: fix it first`);
  const inArithmetic = value < 0 ? `(${value})` : String(value);
  let { text } = source;
  for (const { kind, path, text: written } of mentionsIn(source)) {
    if (kind !== 'number') continue;
    const now = renamedIn(written, name, inArithmetic);
    if (now !== written) text = withValue(text, path, written.trim() === name ? value : now);
  }
  return withoutField(text, ['dims', name]);
}

/** @example newDimName(source, ['parts', 2, 'glue', 0]) // 'tent_glue' */
function newDimName(source: FigureSource, path: Path): string {
  const part = writtenParts(source)[Number(path[1])]?.name ?? 'part';
  const field = path.slice(2).filter((step) => typeof step === 'string');
  const plain = [part, ...field]
    .join('_')
    .replace(/[^\p{L}\p{Nd}_]+/gu, '_')
    .slice(0, 34);
  const base = /^[\p{L}_]/u.test(plain) ? plain : `_${plain}`;
  const taken = new Set([...dimNames(source), ...Object.keys(FUNCTIONS)]);
  if (!taken.has(base)) return base;
  for (let i = 2; ; i++) if (!taken.has(`${base}_${i}`)) return `${base}_${i}`;
}
