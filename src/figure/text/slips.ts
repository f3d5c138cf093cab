import { quoted } from './input-error.js';

/** What makes a file unreadable, in words. Line and column from 1. */
export interface Slip {
  readonly line: number;
  readonly column: number;
  readonly found: string;
  readonly remedy: string;
}

/** What goes on at one indentation: the dashes of a list, or the fields of an entry or a section. */
interface Level {
  readonly column: number;
  readonly kind: 'list' | 'fields';
}

interface Bracket {
  readonly sign: string;
  readonly line: number;
  readonly column: number;
}

const CLOSING: Readonly<Record<string, string>> = { '{': '}', '[': ']' };

/**
 * The first usual slip in a file that YAML can't read: a line that is indented wrongly, told with the line above that it
 * does not follow on; a bracket that is not closed, or by the other kind; a name without a colon and a blank. Undefined where
 * it is something else. Only for files that were found unreadable: what it says of others may be wrong.
 */
export function slipIn(text: string): Slip | undefined {
  const lines = text.split('\n').map((line) => line.trimEnd());
  const levels: Level[] = [];
  let open: Bracket[] = [];
  let above = -1;
  for (const [i, line] of lines.entries()) {
    const indent = line.length - line.trimStart().length;
    const words = line.slice(indent);
    if (words === '' || words.startsWith('#')) continue;
    if (words.startsWith('---') || line.slice(0, indent).includes('\t')) return undefined;
    if (open.length > 0 && /^- \S/.test(words)) return unclosed(open[0]);
    if (open.length === 0) {
      const slip = misplaced(lines, i, above, levels) ?? unnamed(lines, i, levels);
      if (slip !== undefined) return slip;
    }
    const signs = bracketsIn(line, i, open);
    if (!Array.isArray(signs)) return signs;
    open = signs;
    above = i;
    // A text over several lines: what is in it is no field.
    if (/[:-]\s+[|>][+-]?\d?$/.test(line)) return undefined;
  }
  return open.length > 0 ? unclosed(open[0]) : undefined;
}

/** What is wrong with how far a line is indented, if anything; else the levels are those after it. */
function misplaced(lines: readonly string[], i: number, above: number, levels: Level[]): Slip | undefined {
  const indent = indentOf(lines[i]);
  const isEntry = /^-(?:\s|$)/.test(lines[i].slice(indent));
  const opens = above < 0 || isOpening(lines[above]);
  const gone: Level[] = [];
  for (let top = levels.at(-1); top !== undefined && top.column > indent; top = levels.at(-1))
    gone.push(levels.pop() as Level);
  const kind = isEntry ? 'list' : 'fields';
  const here = levels.at(-1);
  const goesOn = here?.column === indent && here.kind === kind;
  // The dashes of a list may stand below the name of its field.
  const below = isEntry && here?.column === indent && here.kind === 'fields' && opens;
  const begins = gone.length === 0 && opens && (here === undefined || here.column < indent || below);
  if (!goesOn && !begins) {
    const other =
      gone.findLast((level) => level.kind === kind) ??
      gone.at(-1) ??
      (isEntry && here?.kind === 'list' ? here : undefined);
    const [line, column] =
      other === undefined ? [above, contentOf(lines[above])] : [lastAt(lines, i, other), other.column];
    return wrongIndent(lines, i, indent, line, column, other?.kind === 'list' && isEntry);
  }
  if (below && !goesOn) levels.push({ column: indent, kind: 'list' });
  else if (!goesOn) levels.push({ column: indent, kind });
  // Behind its dashes stand the fields of an entry.
  const content = contentOf(lines[i]);
  if (isEntry && /^[^\s[{"'][^:]*:(?:\s|$)/.test(lines[i].slice(content)))
    levels.push({ column: content, kind: 'fields' });
  return undefined;
}

function wrongIndent(
  lines: readonly string[],
  i: number,
  own: number,
  line: number,
  column: number,
  asEntry: boolean,
): Slip {
  const isDash = /^\s*-\s/.test(lines[line]);
  const opened = asEntry
    ? 'a list whose dashes are'
    : isDash
      ? 'a list entry whose fields are'
      : 'fields that are';
  return {
    line: i + 1,
    column: own + 1,
    found: `${quoted(lines[i].trim())} indented by ${own} blank${own === 1 ? '' : 's'}`,
    remedy: `line ${line + 1}, ${quoted(lines[line].trim())}, belongs to ${opened} indented by ${column}: indent this one by ${column} to go on with them, or as far as the line that it goes on with`,
  };
}

/** A line among fields that has no name: its colon, or the blank behind it, is left out. */
function unnamed(lines: readonly string[], i: number, levels: readonly Level[]): Slip | undefined {
  const { column, kind } = levels.at(-1) ?? { column: 0, kind: 'fields' };
  const words = lines[i].slice(column);
  const before = /^[^[{"'#]*/.exec(words)?.[0] ?? '';
  if (kind !== 'fields' || /:(?:\s|$)/.test(before) || !/^\p{L}/u.test(words)) return undefined;
  const [, name] = /^(\p{L}[\p{L}\d_]*)/u.exec(words) ?? ['', ''];
  return {
    line: i + 1,
    column: column + 1,
    found: `${quoted(words)}, which has no colon with a blank behind it`,
    remedy: `write it as '${name}: …'`,
  };
}

/** The brackets that are open after a line; or the slip, where one is closed by the other kind. */
function bracketsIn(line: string, i: number, before: readonly Bracket[]): Bracket[] | Slip | undefined {
  const open = [...before];
  // Behind what a sign stands.
  let behind = '';
  for (let at = 0; at < line.length; at++) {
    const sign = line[at];
    const isApart = at > 0 && /\s/.test(line[at - 1]);
    if (sign === '#' && (at === 0 || isApart)) break;
    if ((sign === '"' || sign === "'") && (at === 0 || /[\s[{,]/.test(line[at - 1]))) {
      at = line.indexOf(sign, at + 1);
      if (at < 0) return undefined;
    } else if (sign === '{' || sign === '[') {
      // Outside of brackets, one in the midst of a text is text.
      if (open.length > 0 || behind === '' || (isApart && /[:-]/.test(behind)))
        open.push({ sign, line: i + 1, column: at + 1 });
    } else if (sign === '}' || sign === ']') {
      const last = open.pop();
      if (last === undefined) return unopened(sign, i + 1, at + 1);
      if (CLOSING[last.sign] !== sign)
        return {
          line: i + 1,
          column: at + 1,
          found: `'${sign}' where the '${last.sign}' of line ${last.line}, column ${last.column} is still open`,
          remedy: `close that with '${CLOSING[last.sign]}' first`,
        };
    }
    if (/\S/.test(sign)) behind = sign;
  }
  return open;
}

const unopened = (sign: string, line: number, column: number): Slip => ({
  line,
  column,
  found: `'${sign}', before which nothing was opened`,
  remedy: `open it with '${sign === '}' ? '{' : '['}' before, or take it out`,
});

const unclosed = ({ sign, line, column }: Bracket): Slip => ({
  line,
  column,
  found: `'${sign}', which is not closed`,
  remedy: `close it with '${CLOSING[sign]}'`,
});

const indentOf = (line: string): number => line.length - line.trimStart().length;
/** Whether a line ends in a name or a dash that has nothing yet. */
function isOpening(line: string): boolean {
  const remark = line.indexOf(' #');
  const words = (remark < 0 ? line : line.slice(0, remark)).trim();
  return words.endsWith(':') || words === '-' || words.endsWith(' -');
}

/** Where the fields of a line's own level begin: behind the dash of a list. */
const contentOf = (line: string): number => /^\s*(?:-\s+)*/.exec(line)?.[0].length ?? 0;
/** The last line before one that stands at a level. */
function lastAt(lines: readonly string[], before: number, { column, kind }: Level): number {
  return lines
    .slice(0, before)
    .findLastIndex((line) => (kind === 'list' ? indentOf(line) : contentOf(line)) === column && line !== '');
}
