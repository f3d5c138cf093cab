import { quoted } from './input-error.js';

/** Codes of the library that reads YAML for lines that begin where nothing can go on. */
const AT_INDENTATION = new Set([
  'MISSING_CHAR',
  'BAD_INDENT',
  'BLOCK_AS_IMPLICIT_KEY',
  'MULTILINE_IMPLICIT_KEY',
]);

/**
 * What is wrong with how far a line is indented, in words, where that is what makes a file unreadable: the line found, the
 * line above that it does not follow on, and how far either is indented. Undefined where it is something else.
 * @param offset where the fault was found
 */
export function indentationFault(
  text: string,
  offset: number,
  code: string,
): { readonly found: string; readonly remedy: string } | undefined {
  if (!AT_INDENTATION.has(code)) return undefined;
  const lines = text.split('\n');
  const at = text.slice(0, offset).split('\n').length - 1;
  // A field that goes on with more indentation is found at the line before: the one after it stands wrong.
  const isAbove = indentOf(lines[at]) < indentOf(lines[at + 1] ?? '') && /:\s*\S/.test(lines[at]);
  const wrong = isAbove ? at + 1 : at;
  const above = lines.slice(0, wrong).findLastIndex((line) => /^[^#]*\S/.test(line));
  if (above < 0 || lines[wrong].trim() === '') return undefined;
  const [own, before] = [indentOf(lines[wrong]), fieldColumn(lines[above])];
  if (own === before || (own > before && /:\s*(?:#.*)?$/.test(lines[above]))) return undefined;
  const opens = /^\s*-\s/.test(lines[above]) ? 'a list entry whose fields are' : 'fields that are';
  return {
    found: `${quoted(lines[wrong].trim())} indented by ${own} blanks`,
    remedy: `line ${above + 1}, ${quoted(lines[above].trim())}, belongs to ${opens} indented by ${before}: indent this one by ${before} to go on with them, or as far as the line that it goes on with`,
  };
}

const indentOf = (line: string): number => line.length - line.trimStart().length;
/** Where the fields of a line's own level begin: behind the dash of a list. */
const fieldColumn = (line: string): number => /^\s*(?:-\s+)*/.exec(line)?.[0].length ?? 0;
