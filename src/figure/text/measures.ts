import { ArithmeticError, MEASURES } from './arithmetic-words.js';
import { quoted } from './input-error.js';

/**
 * What arithmetic asks of the open figure, as it is written: `distance(hip to knee)`, `up(hip on board)`,
 * `angle(beam to man ridge at 90)`. Commas may stand in place of the small words, for names that hold these.
 */
export interface AskedMeasure {
  readonly of: string;
  /** Names of places, creases, lines or panels. */
  readonly names: readonly string[];
  /** Arithmetic of the page angle; empty for the open page. */
  readonly opened: string;
  readonly at: number;
}

const ASKED = new RegExp(
  `(?<![\\p{L}\\p{Nd}_])(${Object.keys(MEASURES).join('|')})(\\s*\\()([^()]*)\\)`,
  'gu',
);

/**
 * Takes out of arithmetic what it asks of the open figure, since names of panels hold blanks. In its place stands a word
 * as long, ⌖0__ for the first, so that all other places stay.
 * @throws ArithmeticError where there are too few names, or too many
 */
export function takeMeasures(text: string): {
  readonly text: string;
  readonly asked: readonly AskedMeasure[];
} {
  const sign = text.indexOf('⌖');
  if (sign >= 0) throw new ArithmeticError(sign, "'⌖'", 'leave it out');
  const asked: AskedMeasure[] = [];
  const left = text.replace(ASKED, (whole: string, of: string, _: string, inner: string, at: number) => {
    const { names, form } = MEASURES[of];
    const given = inner.split(inner.includes(',') ? ',' : /\s(?:to|on|at)\s/).map((name) => name.trim());
    if (given.length < names || given.length > names + 1 || given.includes(''))
      throw new ArithmeticError(at, quoted(whole), `write ${form}, and 'at 90' in it for a page angle`);
    asked.push({ of, names: given.slice(0, names), opened: given[names] ?? '', at });
    return `⌖${asked.length - 1}`.padEnd(whole.length, '_');
  });
  return { text: left, asked };
}
