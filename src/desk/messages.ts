import * as z from 'zod';
import type { Json } from '../figure/text/source.js';
import type { PageArt } from '../report/live/data.js';

/** What a page asks of the desk. */
export const request = z.discriminatedUnion('do', [
  /** An edit: the whole text, and the revision that it was made from. */
  z.strictObject({ do: z.literal('write'), text: z.string().max(1_000_000), from: z.int() }),
  z.strictObject({ do: z.literal('undo') }),
  z.strictObject({ do: z.literal('redo') }),
  /** After a conflict: ours over what lies on the disk, or what lies there. Either can be undone. */
  z.strictObject({ do: z.literal('settle'), take: z.enum(['ours', 'theirs']) }),
  z.strictObject({ do: z.literal('begin'), pattern: z.string().max(60) }),
  z.strictObject({
    do: z.literal('ask'),
    what: z.enum(['explore', 'tune', 'compare', 'tolerance', 'sheets']),
    samples: z.int().min(20).max(1_000_000).optional(),
  }),
  z.strictObject({ do: z.literal('stop') }),
  /** The file as it is now, to compare with later. */
  z.strictObject({ do: z.literal('keep') }),
]);
export type Request = z.output<typeof request>;
/** A command of the program's, to be run on the figure. */
export type Question = Extract<Request, { do: 'ask' }>;

/** The drawings that the figure names. */
export interface Drawings {
  /** Those of outlines, by what the file says of each (JSON of its fields): an outline, or what is wrong. */
  readonly outlines?: Readonly<Record<string, { readonly outline: Json } | { readonly fault: string }>>;
  /** What is printed on its panels. */
  readonly art?: PageArt;
}

/** The file as it is now; a text of null where it is not begun, or gone. */
export interface FileNow {
  readonly tell: 'file';
  readonly file: string;
  readonly revision: number;
  /** The last revision that another program has made. */
  readonly theirs: number;
  readonly text: string | null;
  readonly drawings: Drawings;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  /** Whether there is a state to compare with. */
  readonly kept: boolean;
}

/** A dummy of a study, or a remedy, that may be tried on. */
export interface Offer {
  readonly title: string;
  readonly about: string;
  /** The whole file with it. */
  readonly text: string;
}

/** What the desk tells a page. */
export type Told =
  | FileNow
  /** The file has been changed by another program while there was an edit to write: which shall it be? */
  | { readonly tell: 'conflict'; readonly theirs: string | null }
  /** What was asked could not be done. */
  | { readonly tell: 'refused'; readonly why: string }
  | {
      readonly tell: 'running';
      readonly what: Question['what'];
      readonly lines: readonly string[];
      /** The best so far. */
      readonly offers: readonly Offer[];
    }
  | {
      readonly tell: 'done';
      readonly what: Question['what'];
      readonly lines: readonly string[];
      /** Files to look at, as addresses below the desk's own. */
      readonly files: readonly { readonly name: string; readonly address: string }[];
      readonly offers: readonly Offer[];
    }
  | { readonly tell: 'ending' };
