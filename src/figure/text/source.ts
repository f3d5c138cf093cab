import {
  type Alias,
  Composer,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  Lexer,
  LineCounter,
  type Node,
  Parser,
} from 'yaml';
import { InputError, type Path, quoted, type TextMark } from './input-error.js';
import { checkNesting } from './nesting.js';
import { slipIn } from './slips.js';

export type Json = null | boolean | number | string | Json[] | { [field: string]: Json };

/**
 * A figure file that has been read but not yet understood: plain data, which can be cloned into a worker thread or
 * written into a page. `src/figure/figure.ts` makes a Figure of it.
 */
export interface FigureSource {
  /** As it shall stand in messages. */
  readonly file: string;
  /** The file itself, for writing it again with other dims. */
  readonly text: string;
  /** Its data, with outlines from SVG files put in place. */
  readonly data: Json;
  /** Where each value begins, by its path joined with dots. */
  readonly marks: Readonly<Record<string, TextMark>>;
}

/** Largest figure file, bytes of UTF-8. */
export const MOST_BYTES = 1_000_000;
/** Most words, signs and spaces between them: some ten thousand points and all else. Bounds the time of reading. */
const MOST_TOKENS = 200_000;

/** What mends a file that is no YAML, by the code of the library that reads it. */
const WHAT_MENDS: Readonly<Record<string, string>> = {
  BLOCK_AS_IMPLICIT_KEY: 'put text that holds a colon in quotes',
  TAB_AS_INDENT: 'indent with spaces',
};
const MEND_IT = 'mend it there, or just before: look at indentation, brackets and quotes';

/**
 * Reads the YAML of a figure file (YAML 1.2, core schema), without anchors, aliases, tags or directives.
 * SVG outlines are left as they are written.
 * @throws InputError with line and column
 */
export function parseFigure(text: string, file: string): FigureSource {
  const lines = new LineCounter();
  const fail = (offset: number, found: string, remedy: string, field = ''): never => {
    const { line, col } = lines.linePos(offset);
    throw new InputError({ file, line, column: col, field, found, remedy });
  };
  checkAmount(text, file);
  const tokens = [...new Parser(lines.addNewLine).parse(text)];
  /** What YAML says of it, unless it is one of the usual slips. */
  const unreadable = (offset: number, message: string, code = ''): never => {
    const slip = slipIn(text);
    if (slip !== undefined) throw new InputError({ file, ...slip });
    return fail(offset, `what YAML cannot read (${message})`, WHAT_MENDS[code] ?? MEND_IT);
  };
  checkNesting(tokens, fail, unreadable);

  // Keys are compared in `readMap`: the library compares each with each, which takes minutes for a hostile file.
  const options = {
    schema: 'core',
    resolveKnownTags: false,
    uniqueKeys: false,
    prettyErrors: false,
  } as const;
  const [document] = new Composer(options).compose(tokens, true, text.length);
  const problem = document?.errors[0] ?? document?.warnings[0];
  if (problem !== undefined) unreadable(problem.pos[0], problem.message, problem.code);

  /** The first anchor or tag: edits go by where values begin, and these stand before them. */
  let stray: (() => never) | null = null;
  const noteStray = ({ anchor, tag, range }: Exclude<Node, Alias>, field: string) => {
    const found =
      anchor === undefined
        ? tag && `the tag ${quoted(tag.replace('tag:yaml.org,2002:', '!!'))}`
        : `the anchor ${quoted(`&${anchor}`)}`;
    if (found) stray ??= () => fail(range?.[0] ?? 0, found, 'leave it out', field);
  };
  const marks: Record<string, TextMark> = {};
  const read = (node: Node | null, path: Path, nameAt: number): Json => {
    const start = node?.range?.[0] ?? nameAt;
    const field = path.join('.');
    const value = lines.linePos(start + (isScalar(node) && isQuoted(node.type) ? 1 : 0));
    const name = lines.linePos(nameAt);
    marks[field] = [value.line, value.col, name.line, name.col];
    if (node === null) return null;
    if (isAlias(node))
      return fail(
        start,
        `the alias ${quoted(`*${node.source}`)}`,
        'write the value out, or make it a dim',
        field,
      );
    noteStray(node, field);
    if (isSeq<Node | null>(node))
      return node.items.map((item, i) => read(item, [...path, i], item?.range?.[0] ?? start));
    if (isMap<Node | null, Node | null>(node)) {
      const fields: { [field: string]: Json } = {};
      for (const { key, value } of node.items) {
        const at = key?.range?.[0] ?? start;
        if (!isScalar(key) || key.value === null || key.value === '')
          return fail(at, 'a field without a plain name', "write 'name: value'", field);
        noteStray(key, field);
        const called = String(key.value);
        const whole = [...path, called].join('.');
        if (called === '__proto__') return fail(at, quoted(called), 'give the field another name', whole);
        if (Object.hasOwn(fields, called))
          return fail(at, `the field ${quoted(called)} twice`, 'keep one', whole);
        fields[called] = read(value, [...path, called], at);
      }
      return fields;
    }
    if (!isScalar(node)) return fail(start, 'what is neither a value, a list nor fields', 'mend it', field);
    const found = node.value;
    if (typeof found === 'number' && !Number.isFinite(found))
      return fail(start, quoted(String(node.source ?? found)), 'give a finite number', field);
    if (
      found === null ||
      typeof found === 'boolean' ||
      typeof found === 'number' ||
      typeof found === 'string'
    )
      return found;
    return fail(start, 'a value of an unknown type', 'give a number, text, a list or fields', field);
  };
  const data = read(document?.contents ?? null, [], 0);
  (stray as (() => never) | null)?.();
  return { file, text, data, marks };
}

/** Deeper than a file may nest, with the points of a drawing in it. */
const DEEPEST = 40;

/** Whether data that come from elsewhere are such as a file can hold: JSON also has 1e999, and a field called `__proto__`. */
export function isFigureData(value: unknown, deep = 0): value is Json {
  if (typeof value === 'number') return Number.isFinite(value);
  if (typeof value !== 'object') return typeof value === 'string' || typeof value === 'boolean';
  if (value === null) return true;
  return (
    deep < DEEPEST &&
    !Object.hasOwn(value, '__proto__') &&
    Object.values(value).every((inner) => isFigureData(inner, deep + 1))
  );
}

const isQuoted = (type: unknown): boolean => type === 'QUOTE_DOUBLE' || type === 'QUOTE_SINGLE';

/** Stops before anything slow is done to a file that no maker would write. */
function checkAmount(text: string, file: string): void {
  if (text.length > MOST_BYTES)
    throw new InputError({ file, found: `${text.length} characters`, remedy: `keep it under ${MOST_BYTES}` });
  // A carriage return alone ends a line in YAML 1.2, but not for the library.
  const control = /(?![\t\n\u0085]|\r\n)[\p{Cc}\p{Cs}]/u.exec(text);
  if (control !== null) {
    const before = text.slice(0, control.index).split('\n');
    const place = { file, line: before.length, column: (before.at(-1)?.length ?? 0) + 1 };
    if (control[0] === '\r')
      throw new InputError({
        ...place,
        found: 'a line that ends in a carriage return alone',
        remedy: 'save the file with line ends of today (LF or CRLF)',
      });
    throw new InputError({
      ...place,
      found: `the control character U+${control[0].charCodeAt(0).toString(16).padStart(4, '0').toUpperCase()}`,
      remedy: 'take it out, and save the file as UTF-8 text',
    });
  }
  let tokens = 0;
  for (const _ of new Lexer().lex(text))
    if (++tokens > MOST_TOKENS)
      throw new InputError({
        file,
        found: `more than ${MOST_TOKENS} words and signs`,
        remedy: 'split the figure',
      });
}
