import { isMap, isNode, isScalar, isSeq, type Pair, type YAMLMap, type YAMLSeq } from 'yaml';
import type { Path } from './input-error.js';
import type { Json } from './source.js';
import { endOf, nameOf, nodeIn, toBeEdited } from './yaml-edit.js';
import { endOfPair, flow, withValue } from './yaml-write.js';

/** Longest line that an entry is put on whole, characters. */
const LINE = 110;

/** The text with an entry put into a list, before the one that has this place now; every other letter stays. */
export function withItem(text: string, list: Path, place: number, value: { [field: string]: Json }): string {
  const found = nodeAt(text, list);
  if (!isSeq(found) || found.items.length === 0) {
    if (found !== undefined && !isSeq(found)) return withValue(text, list, [value]);
    return withSection(text, String(list[0]), asLines(value, '  '));
  }
  const eol = lineEndOf(text);
  const before = found.items[place - 1];
  if (found.flow) {
    if (isNode(before)) return spliced(text, endOf(before), endOf(before), `, ${flow(value)}`);
    const at = startOf(found, 0);
    return spliced(text, at, at, `${flow(value)}, `);
  }
  const dash = dashOf(text, found, 0);
  const indent = text.slice(lineStart(text, dash), dash);
  const lines = asLines(value, indent).join(eol);
  if (!isNode(before)) return spliced(text, lineStart(text, dash), lineStart(text, dash), `${lines}${eol}`);
  const at = nextLine(text, endOf(before));
  return text.slice(0, at).endsWith('\n') || at === 0
    ? spliced(text, at, at, `${lines}${eol}`)
    : `${text}${eol}${lines}${eol}`;
}

/** The text without an entry of a list; without the whole list, where it was the only one. */
export function withoutItem(text: string, list: Path, place: number): string {
  const found = nodeAt(text, list);
  if (!isSeq(found)) return text;
  if (found.items.length === 1) return withoutField(text, list);
  if (found.flow) {
    const ends = found.items.map((item) => (isNode(item) ? endOf(item) : 0));
    return place + 1 < found.items.length
      ? spliced(text, startOf(found, place), startOf(found, place + 1), '')
      : spliced(text, ends[place - 1], ends[place], '');
  }
  const item = found.items[place];
  if (!isNode(item)) return text;
  return withoutLines(text, lineStart(text, dashOf(text, found, place)), nextLine(text, endOf(item)));
}

/** The text without a field and what stands in it. */
export function withoutField(text: string, path: Path): string {
  const above = nodeAt(text, path.slice(0, -1));
  if (!isMap(above)) return text;
  const place = above.items.findIndex((pair) => nameOf(pair) === path.at(-1));
  if (place < 0) return text;
  const start = (pair: Pair) => (isNode(pair.key) ? (pair.key.range?.[0] ?? 0) : 0);
  const pair = above.items[place];
  if (above.flow) {
    if (place + 1 < above.items.length) return spliced(text, start(pair), start(above.items[place + 1]), '');
    const from = place > 0 ? endOfPair(above.items[place - 1]) : start(pair);
    return spliced(text, from, endOfPair(pair), '');
  }
  return withoutLines(text, lineStart(text, start(pair)), nextLine(text, endOfPair(pair)));
}

/** The text with another name for a field. */
export function withName(text: string, path: Path, name: string): string {
  const above = nodeAt(text, path.slice(0, -1));
  const pair = isMap(above) ? above.items.find((each) => nameOf(each) === path.at(-1)) : undefined;
  if (!isNode(pair?.key) || !pair.key.range) return text;
  return spliced(text, pair.key.range[0], pair.key.range[1], flow(name));
}

/** The text with a new dim after the others. */
export function withDim(text: string, name: string, value: Json): string {
  const dims = nodeAt(text, ['dims']);
  if (isMap(dims)) return withValue(text, ['dims', name], value);
  if (dims !== undefined) return withValue(text, ['dims'], { [name]: value });
  return withSection(text, 'dims', [`  ${flow(name)}: ${flow(value)}`], 'parts');
}

/** Sections go in before another, else at the end. */
function withSection(text: string, name: string, lines: readonly string[], before?: string): string {
  const eol = lineEndOf(text);
  const section = [`${name}:`, ...lines, ''].join(eol);
  const { contents } = toBeEdited(text);
  const next = isMap(contents) ? contents.items.find((pair) => nameOf(pair) === before) : undefined;
  if (isNode(next?.key) && next.key.range) {
    const at = next.key.range[0];
    return spliced(text, at, at, `${section}${eol}`);
  }
  return `${text}${text === '' || text.endsWith('\n') ? '' : eol}${section}`;
}

function nodeAt(text: string, path: Path): unknown {
  const found = nodeIn(toBeEdited(text), path);
  return isScalar(found) && found.value === null ? undefined : found;
}

/** An entry of a list: on one line where that is short enough, else a line for each field. */
function asLines(value: { [field: string]: Json }, indent: string): string[] {
  const whole = `${indent}- ${flow(value)}`;
  if (whole.length <= LINE) return [whole];
  return Object.entries(value).map(
    ([field, inner], i) => `${indent}${i === 0 ? '- ' : '  '}${flow(field)}: ${flow(inner)}`,
  );
}

function startOf(list: YAMLSeq | YAMLMap, place: number): number {
  const item = list.items[place];
  return isNode(item) ? (item.range?.[0] ?? 0) : 0;
}

const dashOf = (text: string, list: YAMLSeq, place: number): number =>
  text.lastIndexOf('-', startOf(list, place) - 1);

const lineStart = (text: string, at: number): number => text.lastIndexOf('\n', at - 1) + 1;

function nextLine(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end + 1;
}

/** Of two blank lines that then follow each other, one goes, too. */
function withoutLines(text: string, from: number, to: number): string {
  const [before, after] = [text.slice(0, from), text.slice(to)];
  const blankBefore = before === '' || /\r?\n[ \t]*\r?\n$/.test(before);
  return before + (blankBefore ? after.replace(/^[ \t]*\r?\n/, '') : after);
}

const lineEndOf = (text: string): string => (text.includes('\r\n') ? '\r\n' : '\n');

const spliced = (text: string, from: number, to: number, now: string): string =>
  text.slice(0, from) + now + text.slice(to);
