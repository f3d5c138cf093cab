import { valueAt } from '../figure/text/check.js';
import type { FigureSource, Json } from '../figure/text/source.js';
import { withItem, withoutItem } from '../figure/text/yaml-items.js';
import { withValue } from '../figure/text/yaml-write.js';
import { asWritten, listOf } from './mentions.js';

/** A want as it stands in the file. */
export interface WrittenWant {
  readonly name: string;
  readonly kind: string;
  /** What is asked of its value, in the order of the fields: those that are plain numbers only. */
  readonly asked: readonly { readonly field: Asked; readonly value: number }[];
}

const ASKED = ['least', 'most', 'target'] as const;
export type Asked = (typeof ASKED)[number];

/** The wants of a file, as they are written. */
export function writtenWants(source: FigureSource): WrittenWant[] {
  return listOf(valueAt(asWritten(source), ['wants'])).map((want) => {
    const fields = (want ?? {}) as { readonly [field: string]: Json };
    return {
      name: String(fields.name),
      kind: String(fields.kind),
      asked: ASKED.flatMap((field) => {
        const value = fields[field];
        return typeof value === 'number' ? [{ field, value }] : [];
      }),
    };
  });
}

/** The text with one more want, after the others; it gets a name that is free. */
export function addWant(
  source: FigureSource,
  want: { readonly name: string } & { readonly [field: string]: Json },
): string {
  const wants = writtenWants(source);
  const isTaken = (name: string) => wants.some((each) => each.name === name);
  let { name } = want;
  for (let i = 2; isTaken(name); i++) name = `${want.name} ${i}`;
  return withItem(source.text, ['wants'], wants.length, { ...want, name });
}

/** The text with another number asked of a want. @param place of the want in the file, from 0 */
export const askOfWant = (source: FigureSource, place: number, field: Asked, value: number): string =>
  withValue(source.text, ['wants', place, field], value);

/** The text without a want. @param place of the want in the file, from 0 */
export const removeWant = (source: FigureSource, place: number): string =>
  withoutItem(source.text, ['wants'], place);
