import { plainText } from '../../text/plain-text.js';

/** Where a value of a figure file begins: line and column of the value, then of the field's name. All from 1. */
export type TextMark = readonly [line: number, column: number, nameLine: number, nameColumn: number];

/** Field names and list places (from 0) that lead to a value of the figure file. */
export type Path = readonly (string | number)[];

/** A figure file, or a dim given by hand, that cannot be used: where, what was found and what would do. */
export class InputError extends Error {
  readonly file: string;
  /** From 1; 0 where there is no line to speak of. */
  readonly line: number;
  readonly column: number;
  /** Such as 'parts.2.glue.1', places in lists counted from 0; empty where the whole file is meant. */
  readonly field: string;
  readonly found: string;
  readonly remedy: string;

  constructor(at: {
    file: string;
    line?: number;
    column?: number;
    field?: string;
    found: string;
    remedy: string;
  }) {
    const { file, line = 0, column = 0 } = at;
    const field = shown(at.field ?? '', 200);
    const found = shown(at.found, 200);
    const remedy = shown(at.remedy, 800);
    const name = file === '' ? "''" : shown(file, 300);
    const place = line > 0 ? `${name}:${line}:${column}` : name;
    super(`${place}  ${field === '' ? '' : `${field}: `}found ${found}; ${remedy}`);
    this.name = 'InputError';
    this.file = file;
    this.line = line;
    this.column = column;
    this.field = field;
    this.found = found;
    this.remedy = remedy;
  }

  /** The one message to show. */
  override toString(): string {
    return this.message;
  }
}

/** Text shortened, and on one line. */
function shown(text: string, most: number): string {
  const plain = plainText(text);
  return plain.length > most ? `${plain.slice(0, most - 1)}…` : plain;
}

/** Text in quotes, as `shown`. */
export const quoted = (text: string): string => `'${shown(text, 60)}'`;

/** What was found, in words, for a message. */
export function described(value: unknown): string {
  if (value === undefined || value === null) return 'nothing';
  if (typeof value === 'string') return quoted(value);
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object') {
    const names = Object.keys(value);
    return names.length === 0 ? 'no fields' : `fields ${quoted(names.join(', '))}`;
  }
  return String(value);
}
