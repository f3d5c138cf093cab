import { appendFileSync, closeSync, fstatSync, fsyncSync, ftruncateSync, openSync, readSync } from 'node:fs';
import { writeWhole } from '../disk/files.js';
import { OUTCOMES, type Outcome, type Row } from './row.js';

/** One scored candidate as it is kept: which stage of the search asked for it, its dims, and how it came out. */
export interface Entry {
  stage: string;
  vector: Float64Array;
  row: Row;
}

/** Bytes read at once when a log is opened. */
const BLOCK = 1 << 20;

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
   * Opens a log to read, or to go on with. Null when there is none. Nothing in the file is changed before `cut` or `append`:
   * it may turn out to be no log of ours.
   */
  static open(path: string): { log: StudyLog; heading: unknown } | null {
    let file: number;
    try {
      file = openSync(path, 'r');
    } catch (error) {
      if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return null;
      throw error;
    }
    const starts: number[] = [];
    let heading: unknown = null;
    for (const line of wholeLines(file)) {
      if (starts.length === 0) heading = parsed(line.text);
      // A power cut may leave a block of zeros: what follows a damaged line is not trusted either.
      else if (!isEntry(parsed(line.text), starts.length - 1)) break;
      starts.push(line.end);
    }
    const size = fstatSync(file).size;
    closeSync(file);
    if (starts.length === 0) return null;
    const log = new StudyLog(openSync(path, 'a+'), starts);
    log.#isTorn = size > starts[starts.length - 1];
    return { log, heading };
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

  /** Makes sure that what was added outlives a power cut. */
  flush(): void {
    fsyncSync(this.#file);
  }

  close(): void {
    closeSync(this.#file);
  }
}

/** The lines that end in a line feed, with where in the file the next one starts. */
function* wholeLines(file: number): Generator<{ text: string; end: number }> {
  const size = fstatSync(file).size;
  let rest = Buffer.alloc(0);
  let end = 0;
  for (let from = 0; from < size; from += BLOCK) {
    const block = Buffer.alloc(Math.min(BLOCK, size - from));
    readSync(file, block, 0, block.length, from);
    rest = Buffer.concat([rest, block]);
    for (let cut = rest.indexOf(10); cut >= 0; cut = rest.indexOf(10)) {
      end += cut + 1;
      yield { text: rest.toString('utf8', 0, cut), end };
      rest = rest.subarray(cut + 1);
    }
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

type Line = [
  number: number,
  stage: string,
  vector: number[],
  outcome: Outcome,
  figures: (number | string | null)[],
  met: number[],
  words: string[],
];

/** Whether a line is of that number, and of the right kinds throughout: it may be damaged, or a stranger's. */
function isEntry(line: unknown, index: number): line is Line {
  if (!Array.isArray(line) || line.length !== 7) return false;
  const [number, stage, vector, outcome, figures, met, words] = line as unknown[];
  return (
    number === index &&
    typeof stage === 'string' &&
    OUTCOMES.some((known) => known === outcome) &&
    isListOf(vector, (value) => typeof value === 'number') &&
    isListOf(figures, (value) => value === null || !Number.isNaN(numberIn(value as number | string))) &&
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
  return [stage, [...vector], row.outcome, Array.from(row.figures, numberOut), [...row.met], row.words];
}

function decoded([, stage, vector, outcome, figures, met, words]: Line): Entry {
  return {
    stage,
    vector: Float64Array.from(vector),
    row: { outcome, figures: Float64Array.from(figures, numberIn), met: Uint8Array.from(met), words },
  };
}
