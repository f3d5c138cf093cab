import { ArithmeticError, FUNCTIONS, MEASURES } from './arithmetic-words.js';
import { quoted } from './input-error.js';

/** A word of arithmetic and where it begins, from 0. */
export interface ScannedWord {
  readonly text: string;
  readonly at: number;
}

/** Letters and digits; no hyphen, which would be a minus. */
export const DIM_NAME = /^[\p{L}_][\p{L}\p{Nd}_]*$/u;

const TOKEN =
  /[ \t\r\n]+|(?<number>(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)|(?<word>[\p{L}_][\p{L}\p{Nd}_]*|⌖\d+_*)|[-+*/×÷−(),]/uy;

const WHAT_WOULD_DO = 'use numbers, dims, + - * / × ÷, brackets and functions only';

/**
 * Goes through arithmetic from left to right, so that whatever does not belong is named with its place, and returns
 * its words in order. The parser knows more than arithmetic (lists, text, members, comparisons) and tells no places;
 * none of that gets past here.
 */
export function scan(text: string): ScannedWord[] {
  const words: ScannedWord[] = [];
  let before: { text: string; value: boolean; callable: boolean } | undefined;
  TOKEN.lastIndex = 0;
  for (let at = 0; at < text.length; at = TOKEN.lastIndex) {
    TOKEN.lastIndex = at;
    const found = TOKEN.exec(text);
    if (found === null) throw stray(text, at);
    const [token] = found;
    if (token.trim() === '') continue;
    const { number, word } = found.groups ?? {};
    const begins = number !== undefined || word !== undefined || (token === '(' && !before?.callable);
    if (before?.value && begins)
      throw new ArithmeticError(at, quoted(token), between(text, before.text, token));
    if (token === '*' && before?.text === '*')
      throw new ArithmeticError(at - 1, "'**'", 'for a power, multiply: x * x');
    if (word !== undefined) words.push({ text: word, at });
    before = {
      text: token,
      value: number !== undefined || word !== undefined || token === ')',
      callable: word !== undefined && isCalled(text, TOKEN.lastIndex),
    };
    if (before.callable && word !== undefined && !Object.hasOwn(FUNCTIONS, word))
      throw new ArithmeticError(
        at,
        `the function ${quoted(word)}`,
        `the functions are ${[...Object.keys(FUNCTIONS), ...Object.keys(MEASURES)].join(', ')}`,
      );
  }
  return words;
}

/** What would do between two words that follow each other without a sign. */
function between(text: string, before: string, token: string): string {
  if (/^(mm|cm|m|in|inch|inches|deg|degrees?|rad)$/.test(token)) return UNITLESS;
  if (/^[\d.\s]*\d\s*(\.\.+|to)\s*[\d.]+\s*$/.test(text)) return 'for a range, write { from: …, to: … }';
  return `after ${quoted(before)}, put a sign between them`;
}

const UNITLESS = 'leave the unit out: lengths are mm, angles degrees';

const isCalled = (text: string, from: number): boolean => text.slice(from).trimStart().startsWith('(');

function stray(text: string, at: number): ArithmeticError {
  const sign = String.fromCodePoint(text.codePointAt(at) ?? 0);
  if (sign === '^') return new ArithmeticError(at, quoted(sign), 'for a power, multiply: x * x');
  if (sign === '°' || sign === '%') return new ArithmeticError(at, quoted(sign), UNITLESS);
  if (sign === '…') return new ArithmeticError(at, quoted(sign), 'for a range, write { from: …, to: … }');
  return new ArithmeticError(at, quoted(sign), WHAT_WOULD_DO);
}
