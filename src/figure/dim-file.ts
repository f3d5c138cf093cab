import * as z from 'zod';
import { label } from '../parts/label.js';
import { type Expression, parseArithmetic } from './text/arithmetic.js';
import { ArithmeticError, FUNCTIONS } from './text/arithmetic-words.js';
import { checked, faultAt, strayField, valueAt } from './text/check.js';
import type { Path } from './text/input-error.js';
import { DIM_NAME } from './text/scan.js';
import type { FigureSource } from './text/source.js';

const MOST_DIMS = 200;
const MOST_OPTIONS = 50;
/** Beyond this no dim of card makes sense. */
export const GREATEST = 1e6;

/** A dim as the figure file writes it. */
export type WrittenDim = { readonly name: string; readonly unit: 'mm' | 'degrees' | undefined } & (
  | { readonly kind: 'number'; readonly value: number }
  | {
      readonly kind: 'range';
      readonly from: number;
      readonly to: number;
      readonly start: number;
      readonly step: number | undefined;
    }
  | { readonly kind: 'choice'; readonly options: readonly string[] | readonly number[] }
  | { readonly kind: 'arithmetic'; readonly expression: Expression }
);

const unit = z.enum(['mm', 'degrees']).optional();
const bounded = () => z.number().min(-GREATEST).max(GREATEST);
const range = z.strictObject({
  from: bounded(),
  to: bounded(),
  start: bounded().optional(),
  step: z.number().positive().max(GREATEST).optional(),
  unit,
});
const choice = z.strictObject({
  choose: z
    .array(z.union([bounded(), label()], { error: 'a word or a number' }))
    .min(1)
    .max(MOST_OPTIONS)
    .refine((options) => new Set(options.map((option) => typeof option)).size === 1, {
      error: 'words only, or numbers only',
    })
    .refine((options) => new Set(options).size === options.length, { error: 'each word or number once' })
    .transform((options) => options as string[] | number[]),
  unit,
});

/** Reads the `dims` of a figure file, in file order. */
export function readDims(source: FigureSource): WrittenDim[] {
  const found = valueAt(source, ['dims']) ?? {};
  if (typeof found !== 'object' || Array.isArray(found))
    throw faultAt(source, ['dims'], "give fields such as 'height: 40' or 'height: { from: 20, to: 60 }'");
  const names = Object.keys(found);
  if (names.length > MOST_DIMS)
    throw faultAt(source, ['dims'], `give at most ${MOST_DIMS}`, `${names.length} dims`);
  return names.map((name) => readDim(source, name, ['dims', name]));
}

function readDim(source: FigureSource, name: string, path: Path): WrittenDim {
  if (!DIM_NAME.test(name) || name.length > 40)
    throw strayField(
      source,
      path,
      'name a dim with letters, digits and _, the first no digit, at most 40 in all',
    );
  if (Object.hasOwn(FUNCTIONS, name) || ['true', 'false', 'null', 'this'].includes(name))
    throw strayField(source, path, 'the word has a meaning in arithmetic; choose another name');
  const written = valueAt(source, path);
  if (typeof written === 'number')
    return { name, unit: undefined, kind: 'number', value: checked(source, path, bounded()) };
  if (typeof written === 'string')
    return { name, unit: undefined, kind: 'arithmetic', expression: readArithmetic(source, path, written) };
  if (written === null || written === undefined || typeof written !== 'object' || Array.isArray(written))
    throw faultAt(
      source,
      path,
      'give a number, { from: …, to: … }, { choose: […] } or arithmetic over other dims',
    );
  if (Object.hasOwn(written, 'choose')) {
    const { choose, unit } = checked(source, path, choice);
    return { name, unit, kind: 'choice', options: choose };
  }
  return readRange(source, name, path);
}

function readRange(source: FigureSource, name: string, path: Path): WrittenDim {
  const { from, to, start, step, unit } = checked(source, path, range);
  if (from >= to)
    throw faultAt(source, [...path, 'to'], `give a number above ${from}, where the range begins`);
  if (start !== undefined && (start < from || start > to))
    throw faultAt(source, [...path, 'start'], `give a number from ${from} to ${to}`);
  if (step !== undefined && step > to - from)
    throw faultAt(source, [...path, 'step'], `give at most ${to - from}, the length of the range`);
  return { name, unit, kind: 'range', from, to, start: start ?? (from + to) / 2, step };
}

/** Reads arithmetic that stands at a path, with the column of what is wrong in it. */
export function readArithmetic(source: FigureSource, path: Path, text: string): Expression {
  try {
    return parseArithmetic(text);
  } catch (error) {
    if (error instanceof ArithmeticError) throw faultAt(source, path, error.remedy, error.found, error.at);
    throw error;
  }
}
