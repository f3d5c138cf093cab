import { createHash } from 'node:crypto';
import { appendFileSync, closeSync, fstatSync, fsyncSync, ftruncateSync, openSync, readSync } from 'node:fs';
import * as z from 'zod';
import { StudyError } from '../disk/error.js';
import { writeWhole } from '../disk/files.js';
import { openPlain } from '../disk/read-file.js';
import { OUTCOMES, type Outcome, type Row } from './row.js';

/** One scored candidate as it is kept: which stage of the search asked for it, its dims, and how it came out. */
export interface Entry {
  stage: string;
  vector: Float64Array;
  row: Row;
}

/** Bytes read at once when a log is opened. */
const BLOCK = 1 << 20;
/** Longest line: a heading holds a whole figure file, and where each of its values stands. */
const LONGEST_LINE = 1 << 26;

/** What the last line of a finished study says of it: so that a part of a log is never taken for the whole. */
const ending = z.object({
  end: z.object({
    scored: z.int(),
    /** Of all bytes before that line. */
    sha256: z.string(),
    /** SHA-256 of files that were written with it, by their names. */
    files: z.record(z.string(), z.string()),
  }),
});
export type End = z.output<typeof ending>['end'];

/** A log as it was found. */
export interface Opened {
  readonly log: StudyLog;
  /** What its first line holds; null when that is not JSON. */
  readonly heading: unknown;
  /** What its last line says, if it is finished and that line is whole. */
  readonly end: End | null;
  /** Whether it holds what its last line says, and nothing else. */
  readonly isWhole: boolean;
}

/**
 * The scored candidates of a study on disk, in the order of their numbers: a line of JSON each, after a first line that
 * says whose they are. Only ever added to, so that after a kill at any moment all but a torn last line is good. Memory
 * holds where each line starts, not what is in it.
 */
export class StudyLog {
  readonly #file: number;
  /** Where each entry starts, and at the end where the next one will. */
  readonly #starts: number[];
  /** Whether something follows that a kill has torn off. */
  #isTorn = false;

  private constructor(file: number, starts: number[]) {
    this.#file = file;
    this.#starts = starts;
  }

  /** Starts a log; one that was there is dropped. */
  static create(path: string, heading: unknown): StudyLog {
    // A log is never there without its whole heading.
    const line = `${JSON.stringify(heading)}\n`;
    writeWhole(path, line);
    return new StudyLog(openSync(path, 'a+'), [Buffer.byteLength(line)]);
  }

  /**
   * Opens a log to read, which asks for no leave to write. Null when there is none.
   * @throws StudyError for something else in its place, or one that can't be read
   */
  static read(path: string): Opened | null {
    return StudyLog.#opened(path, false);
  }

  /**
   * Opens a log to go on with. Null when there is none. Nothing in the file is changed before `cut` or `append`: it may turn
   * out to be no log of ours.
   */
  static open(path: string): Opened | null {
    return StudyLog.#opened(path, true);
  }

  static #opened(path: string, toGoOn: boolean): Opened | null {
    let file: number;
    try {
      file = openPlain(path);
    } catch (error) {
      if (!(error instanceof Error && 'code' in error)) throw error;
      // Part of the path is nowhere, or a file.
      if (/^(ENOENT|ENOTDIR|ENAMETOOLONG)$/.test(String(error.code))) return null;
      const why = /^(EACCES|EPERM)$/.test(String(error.code)) ? 'you may not' : String(error.code);
      throw new StudyError(`${path} cannot be read: ${why}. Give a folder whose files can be read.`);
    }
    const starts: number[] = [];
    const hash = createHash('sha256');
    let heading: unknown = null;
    let end: End | null = null;
    let size = 0;
    let endsAt = 0;
    try {
      for (const line of wholeLines(file)) {
        const found = parsed(line.bytes);
        if (starts.length === 0) heading = found;
        // A power cut may leave a block of zeros: what follows a damaged line is not trusted either.
        else if (!isEntry(found, starts.length - 1)) {
          end = ending.safeParse(found).data?.end ?? null;
          endsAt = line.end;
          break;
        }
        hash.update(line.bytes);
        starts.push(line.end);
      }
      size = fstatSync(file).size;
    } catch (error) {
      closeSync(file);
      throw error;
    }
    if (toGoOn || starts.length === 0) closeSync(file);
    if (starts.length === 0) return null;
    const log = new StudyLog(toGoOn ? openSync(path, 'a+') : file, starts);
    log.#isTorn = size > starts[starts.length - 1];
    const isWhole = end?.scored === log.size && end.sha256 === hash.digest('hex') && endsAt === size;
    return { log, heading, end, isWhole };
  }

  /** How many candidates it holds. */
  get size(): number {
    return this.#starts.length - 1;
  }

  /** Cuts away what a kill has torn off. To be asked of a log that is known to be ours. */
  cut(): void {
    if (this.#isTorn) ftruncateSync(this.#file, this.#starts[this.size]);
    this.#isTorn = false;
  }

  append(entry: Entry): void {
    this.cut();
    const line = `${JSON.stringify([this.size, ...encoded(entry)])}\n`;
    appendFileSync(this.#file, line);
    this.#starts.push(this.#starts[this.size] + Buffer.byteLength(line));
  }

  /** The candidate of that number, from 0. */
  at(index: number): Entry {
    const bytes = Buffer.alloc(this.#starts[index + 1] - this.#starts[index]);
    readSync(this.#file, bytes, 0, bytes.length, this.#starts[index]);
    return decoded(JSON.parse(bytes.toString('utf8')));
  }

  /**
   * Writes a last line that says how many candidates there are, and what they and files written with them hash to.
   * @param files SHA-256 by name
   */
  finish(files: Readonly<Record<string, string>>): void {
    this.cut();
    const hash = createHash('sha256');
    for (const line of wholeLines(this.#file)) hash.update(line.bytes);
    const end: End = { scored: this.size, sha256: hash.digest('hex'), files };
    appendFileSync(this.#file, `${JSON.stringify({ end })}\n`);
    this.#isTorn = true;
    this.flush();
  }

  /** Makes sure that what was added outlives a power cut. */
  flush(): void {
    fsyncSync(this.#file);
  }

  close(): void {
    closeSync(this.#file);
  }
}

/** The lines that end in a line feed, with where in the file the next one starts. */
function* wholeLines(file: number): Generator<{ bytes: Buffer; end: number }> {
  const size = fstatSync(file).size;
  let rest = Buffer.alloc(0);
  let end = 0;
  for (let from = 0; from < size; from += BLOCK) {
    const block = Buffer.alloc(Math.min(BLOCK, size - from));
    readSync(file, block, 0, block.length, from);
    rest = Buffer.concat([rest, block]);
    for (let cut = rest.indexOf(10); cut >= 0; cut = rest.indexOf(10)) {
      end += cut + 1;
      yield { bytes: rest.subarray(0, cut + 1), end };
      rest = rest.subarray(cut + 1);
    }
    if (rest.length > LONGEST_LINE) return;
  }
}

function parsed(line: Buffer): unknown {
  try {
    return JSON.parse(line.toString('utf8'));
  } catch {
    return null;
  }
}

type Line = [
  number: number,
  stage: string,
  vector: number[],
  outcome: Outcome,
  numbers: (number | string | null)[],
  met: number[],
  words: string[],
];

/** Whether a line is of that number, and of the right kinds throughout: it may be damaged, or a stranger's. */
function isEntry(line: unknown, index: number): line is Line {
  if (!Array.isArray(line) || line.length !== 7) return false;
  const [number, stage, vector, outcome, numbers, met, words] = line as unknown[];
  return (
    number === index &&
    typeof stage === 'string' &&
    OUTCOMES.some((known) => known === outcome) &&
    isListOf(vector, (value) => typeof value === 'number') &&
    isListOf(numbers, (value) => value === null || !Number.isNaN(numberIn(value as number | string))) &&
    isListOf(met, (value) => value === 0 || value === 1) &&
    isListOf(words, (value) => typeof value === 'string')
  );
}

const isListOf = (list: unknown, isOne: (value: unknown) => boolean): boolean =>
  Array.isArray(list) && list.every(isOne);

/** JSON has no NaN and no infinities: they are kept as null and as words, so that a resumed study sees the same. */
const numberOut = (x: number) => (Number.isFinite(x) ? x : Number.isNaN(x) ? null : String(x));
const numberIn = (x: number | string | null) => (x === null ? Number.NaN : Number(x));

function encoded({ stage, vector, row }: Entry) {
  return [stage, [...vector], row.outcome, Array.from(row.numbers, numberOut), [...row.met], row.words];
}

function decoded([, stage, vector, outcome, numbers, met, words]: Line): Entry {
  return {
    stage,
    vector: Float64Array.from(vector),
    row: { outcome, numbers: Float64Array.from(numbers, numberIn), met: Uint8Array.from(met), words },
  };
}
