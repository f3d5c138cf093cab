import { isMap, isNode, isScalar, type YAMLMap } from 'yaml';
import type { Path } from './input-error.js';
import type { Json } from './source.js';
import { endOf, nodeIn, toBeEdited } from './yaml-edit.js';

/** Puts a value at a path: in place of what is there, or as a new field of the nearest fields that are. */
export function withValue(text: string, path: Path, value: Json): string {
  const document = toBeEdited(text);
  const found = nodeIn(document, path);
  if (found?.range) {
    const end = endOf(found);
    // Nothing at all stands in an empty field: a blank goes before.
    const before = end === found.range[0] ? ' ' : '';
    return text.slice(0, found.range[0]) + before + flow(value) + text.slice(end);
  }
  for (let deep = path.length - 1; deep >= 0; deep--) {
    const above = nodeIn(document, path.slice(0, deep));
    if (!isMap(above) || !above.range) continue;
    const rest = path.slice(deep + 1).reduceRight<Json>((inner, step) => ({ [step]: inner }), value);
    return withField(text, above, String(path[deep]), rest);
  }
  throw new Error(`there is no ${path.join('.')} in the figure file`);
}

function withField(text: string, fields: YAMLMap, name: string, value: Json): string {
  const field = `${flow(name)}: ${flow(value)}`;
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

export function endOfPair(pair: { key: unknown; value: unknown }): number {
  if (isNode(pair.value)) return endOf(pair.value);
  return isNode(pair.key) ? (pair.key.range?.[1] ?? 0) : 0;
}

/** A value on one line. */
export function flow(value: Json): string {
  if (Array.isArray(value)) return `[${value.map(flow).join(', ')}]`;
  if (value !== null && typeof value === 'object')
    return `{ ${Object.entries(value)
      .map(([name, inner]) => `${flow(name)}: ${flow(inner)}`)
      .join(', ')} }`;
  if (typeof value === 'string') return isPlain(value) ? value : JSON.stringify(value);
  return String(value);
}

/** Whether text is read as that text without quotes, in braces too: a name, or arithmetic. */
const isPlain = (text: string): boolean =>
  /^(?!(?:true|false|null)$)[\p{L}\d_(](?:[\p{L}\d_ +*/().×÷−-]*[\p{L}\d_).])?$/iu.test(text) &&
  Number.isNaN(Number(text));
