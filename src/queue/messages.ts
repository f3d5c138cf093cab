import * as z from 'zod';
import type { Json } from '../figure/text/source.js';
import type { Trial } from '../study/figure-pool.js';
import { ScoringFailure } from '../study/pool.js';
import { type Layout, OUTCOMES } from '../study/row.js';
import { likeness } from './likeness.js';

/*
 * What goes over the queue. Whoever reads it trusts none of it: it may come from another version, from a broken machine
 * or from a stranger.
 */

/** Longest messages that are looked into, characters. */
const MOST_TEXT = 8_000_000;
/** Longest figure with its drawings, as JSON. */
export const MOST_FIGURE = 32_000_000;
/** Most candidates in one parcel. */
export const MOST_IN_PARCEL = 64;
/** Most numbers of one candidate: its dims, and the errors of a dummy cut by hand. */
const MOST_NUMBERS = 100_000;

const sha256 = z.string().regex(/^[0-9a-f]{64}$/);
/** Nothing in a name can upset a terminal or a key. */
const lenderId = z.string().regex(/^[\w.-]{1,80}$/);
const studyId = z.uuid();
const words = (most: number) => z.string().max(most);
/** Numbers as their bytes: no digit is lost, and neither are NaN and −0. */
const bytes = z.base64().max(12 * MOST_NUMBERS);

/** Candidates to be scored, as one message. */
export const parcelMessage = z.strictObject({
  study: studyId,
  figure: sha256,
  parcel: z.int().min(0),
  vectors: z.array(bytes).min(1).max(MOST_IN_PARCEL),
  /** Whether what fails by its motion is not looked at further. */
  inShort: z.boolean(),
});
export type ParcelMessage = z.infer<typeof parcelMessage>;

const trial = z.strictObject({
  outcome: z.enum(OUTCOMES),
  numbers: bytes,
  met: z.string().regex(/^[01]{0,1000}$/),
  words: z.array(words(10_000)).max(100),
  failure: words(10_000).nullable(),
});

/** What came of a parcel. Null stands for a candidate that could not be scored; no trials at all for a whole parcel. */
export const answerMessage = z.strictObject({
  parcel: z.int().min(0),
  lender: lenderId,
  trials: z.array(trial.nullable()).max(MOST_IN_PARCEL),
});
export type AnswerMessage = z.infer<typeof answerMessage>;

/** A study that hands out parcels. */
export const studyMessage = z.strictObject({ id: studyId, figure: words(60), likeness });
export type StudyMessage = z.infer<typeof studyMessage>;

/** A machine that lends cores. */
export const lenderMessage = z.strictObject({
  id: lenderId,
  workers: z.int().min(1).max(256),
  likeness,
});
export type LenderMessage = z.infer<typeof lenderMessage>;

const json: z.ZodType<Json> = z.json();
export const figureMessage = z.strictObject({
  file: z.string(),
  text: z.string(),
  data: json,
  marks: z.record(z.string(), z.tuple([z.number(), z.number(), z.number(), z.number()])),
});

/** What a message says; null where it says something else than it should. */
export function messageIn<Schema extends z.ZodType>(
  schema: Schema,
  text: string | null | undefined,
  most = MOST_TEXT,
): z.output<Schema> | null {
  if (typeof text !== 'string' || text.length > most) return null;
  try {
    return schema.safeParse(JSON.parse(text)).data ?? null;
  } catch {
    return null;
  }
}

export function bytesOf(numbers: Float64Array): string {
  return Buffer.from(numbers.buffer, numbers.byteOffset, numbers.byteLength).toString('base64');
}

/** Null where these are no whole numbers of eight bytes. */
export function numbersIn(text: string): Float64Array | null {
  const found = Buffer.from(text, 'base64');
  if (found.length % 8 !== 0) return null;
  const numbers = new Float64Array(found.length / 8);
  found.copy(new Uint8Array(numbers.buffer));
  return numbers;
}

export function trialOut(answer: Trial | ScoringFailure): AnswerMessage['trials'][number] {
  if (answer instanceof ScoringFailure) return null;
  const { outcome, numbers, met, words } = answer.row;
  return { outcome, numbers: bytesOf(numbers), met: met.join(''), words, failure: answer.failure };
}

/** The trial of a message; null where it is none of a figure of that layout. */
export function trialIn(found: NonNullable<AnswerMessage['trials'][number]>, layout: Layout): Trial | null {
  const numbers = numbersIn(found.numbers);
  const blank = layout.failed('');
  if (numbers?.length !== layout.numbers) return null;
  if (found.met.length !== blank.met.length || found.words.length !== blank.words.length) return null;
  // A worker that can't score says so otherwise; and what works breaks nothing.
  if (found.outcome === 'not scored') return null;
  if ((found.outcome === 'works') !== (found.failure === null)) return null;
  if (found.outcome === 'works' && found.met.includes('0')) return null;
  const met = Uint8Array.from(found.met, Number);
  return { row: { outcome: found.outcome, numbers, met, words: found.words }, failure: found.failure };
}
