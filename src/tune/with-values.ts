import { isCollection, isMap, isNode, isScalar, type YAMLMap } from 'yaml';
import type { Trim } from '../figure/places.js';
import type { Path } from '../figure/text/input-error.js';
import type { FigureSource, Json } from '../figure/text/source.js';
import { endOf, toBeEdited } from '../figure/text/yaml-edit.js';
import type { Setting } from './settings.js';

/** A value of a setting and where it goes. */
export interface NewValue {
  readonly setting: Setting;
  readonly value: number | string;
}

/**
 * The text of a figure file with other values for some settings; every other letter stays as it is, comments included.
 * A range keeps its ends and starts at the value; of a choice the value becomes the first. A field that was left out
 * is put in.
 */
export function withValues(source: FigureSource, values: readonly NewValue[]): string {
  return values.reduce((text, { setting, value }) => {
    const place =
      setting.place[0] === 'dims' ? placeOfDim(text, setting, value) : { at: setting.place, value };
    return withValue(text, place.at, place.value);
  }, source.text);
}

/** The text of a figure file with more trims, each on a line of its own. */
export function withTrims(source: FigureSource, trims: readonly Trim[]): string {
  const text = source.text.endsWith('\n') ? source.text : `${source.text}\n`;
  const written = toBeEdited(text).get('trims');
  const before = isCollection(written) ? (written.toJSON() as Json[]) : [];
  const added = trims.map(({ panel, region }) => ({ panel, region: region.map((corner) => [...corner]) }));
  const lines = [...before, ...added].map((trim) => `\n  - ${flow(trim)}`).join('');
  const { from, to } = placeOfTrims(text);
  return `${text.slice(0, from)}trims:${lines}\n${text.slice(to)}`;
}

/** Where the trims stand in a file, name and all, to the end of their last line; else its end. */
function placeOfTrims(text: string): { from: number; to: number } {
  const { contents } = toBeEdited(text);
  const pair = isMap(contents)
    ? contents.items.find(({ key }) => isScalar(key) && key.value === 'trims')
    : undefined;
  if (pair === undefined || !isScalar(pair.key)) return { from: text.length, to: text.length };
  const lineEnd = text.indexOf('\n', endOfPair(pair));
  return { from: pair.key.range?.[0] ?? 0, to: lineEnd < 0 ? text.length : lineEnd + 1 };
}

function placeOfDim(text: string, setting: Setting, value: number | string): { at: Path; value: Json } {
  const written = toBeEdited(text).getIn(setting.place);
  if (!isMap(written)) return { at: setting.place, value };
  if (written.has('from')) return { at: [...setting.place, 'start'], value };
  const choose = toBeEdited(text).getIn([...setting.place, 'choose']);
  const options = isCollection(choose) ? (choose.toJSON() as Json[]) : [];
  const rest = options.length > 1 ? options.filter((option) => option !== value) : [];
  return { at: [...setting.place, 'choose'], value: [value, ...rest] };
}

/** Puts a value at a path: in place of what is there, or as a new field of the nearest fields that are. */
function withValue(text: string, path: Path, value: Json): string {
  const document = toBeEdited(text);
  const found = document.getIn(path, true);
  if (isNode(found) && found.range) {
    const end = endOf(found);
    // Nothing at all stands in an empty field: a blank goes before.
    const before = end === found.range[0] ? ' ' : '';
    return text.slice(0, found.range[0]) + before + flow(value) + text.slice(end);
  }
  for (let deep = path.length - 1; deep >= 0; deep--) {
    const above = deep === 0 ? document.contents : document.getIn(path.slice(0, deep), true);
    if (!isMap(above) || !above.range) continue;
    const rest = path.slice(deep + 1).reduceRight<Json>((inner, step) => ({ [step]: inner }), value);
    return withField(text, above, String(path[deep]), rest);
  }
  throw new Error(`there is no ${path.join('.')} in the figure file`);
}

function withField(text: string, fields: YAMLMap, name: string, value: Json): string {
  const field = `${name}: ${flow(value)}`;
  const last = fields.items.at(-1);
  const end = last === undefined ? 0 : endOfPair(last);
  if (fields.flow || last === undefined) {
    if (last !== undefined) return `${text.slice(0, end)}, ${field}${text.slice(end)}`;
    const brace = (fields.range?.[1] ?? 1) - 1;
    return `${text.slice(0, brace)}${field}${text.slice(brace)}`;
  }
  const [first] = fields.items;
  const start = isScalar(first.key) ? (first.key.range?.[0] ?? 0) : 0;
  const indent = start - (text.lastIndexOf('\n', start - 1) + 1);
  const lineEnd = text.indexOf('\n', end);
  const at = lineEnd < 0 ? text.length : lineEnd;
  return `${text.slice(0, at)}\n${' '.repeat(indent)}${field}${text.slice(at)}`;
}

function endOfPair(pair: { key: unknown; value: unknown }): number {
  if (isNode(pair.value)) return endOf(pair.value);
  return isNode(pair.key) ? (pair.key.range?.[1] ?? 0) : 0;
}

/** A value on one line. */
function flow(value: Json): string {
  if (Array.isArray(value)) return `[${value.map(flow).join(', ')}]`;
  if (value !== null && typeof value === 'object')
    return `{ ${Object.entries(value)
      .map(([name, inner]) => `${name}: ${flow(inner)}`)
      .join(', ')} }`;
  if (typeof value === 'string')
    return /^(?!(?:true|false|null)$)[a-z][\w -]*$/i.test(value) ? value : JSON.stringify(value);
  return String(value);
}
