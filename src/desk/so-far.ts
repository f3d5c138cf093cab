import { closeSync, fstatSync, readSync } from 'node:fs';
import { openPlain } from '../disk/read-file.js';

/** The best dummy of a study that is still running. */
export interface BestSoFar {
  /** Its number as a person counts: from 1. */
  readonly number: number;
  readonly vector: Float64Array;
  readonly works: boolean;
  /** How far it is from what is asked; 0 for what works. */
  readonly violation: number;
  readonly desirability: number;
}

/** Bytes of a log that are read at one look, at most: the rest follows at the next. */
const MOST_AT_ONCE = 1 << 24;

/** The log of a running study, read on from where it was left at the last look. */
export class SoFar {
  readonly #path: string;
  readonly #text: string;
  #file = 0;
  #from = 0;
  #rest = Buffer.alloc(0);
  #isOurs = false;
  #scored = 0;
  #best: BestSoFar | null = null;

  /** @param text of the figure file that is explored: a log of another one is left from before */
  constructor(path: string, text: string) {
    this.#path = path;
    this.#text = text;
  }

  /** How many it holds by now. */
  get scored(): number {
    return this.#scored;
  }

  get best(): BestSoFar | null {
    return this.#best;
  }

  /** Reads what has come since; what cannot be read yet is left for the next look. */
  look(): void {
    let file: number;
    try {
      file = openPlain(this.#path);
    } catch {
      return;
    }
    try {
      const { ino, size } = fstatSync(file);
      if (ino !== this.#file || size < this.#from) this.#begin(ino);
      const block = Buffer.alloc(Math.max(0, Math.min(MOST_AT_ONCE, size - this.#from)));
      const got = readSync(file, block, 0, block.length, this.#from);
      this.#from += got;
      this.#rest = Buffer.concat([this.#rest, block.subarray(0, got)]);
    } finally {
      closeSync(file);
    }
    let from = 0;
    for (let end = this.#rest.indexOf(10); end >= 0; end = this.#rest.indexOf(10, from)) {
      this.#hear(this.#rest.toString('utf8', from, end));
      from = end + 1;
    }
    this.#rest = this.#rest.subarray(from);
  }

  #begin(file: number): void {
    this.#file = file;
    this.#from = 0;
    this.#rest = Buffer.alloc(0);
    this.#isOurs = false;
    this.#scored = 0;
    this.#best = null;
  }

  #hear(line: string): void {
    let found: unknown;
    try {
      found = JSON.parse(line);
    } catch {
      return;
    }
    if (!Array.isArray(found)) {
      const { source } = (found ?? {}) as { source?: { text?: unknown } };
      this.#isOurs = source?.text === this.#text;
      return;
    }
    if (!this.#isOurs) return;
    this.#scored++;
    const [number, , vector, outcome, numbers] = found as [
      number,
      string,
      number[],
      string,
      (number | null)[],
    ];
    if ((outcome !== 'works' && outcome !== 'fails') || !Array.isArray(vector) || !Array.isArray(numbers))
      return;
    // The first two numbers of a row: see `Layout`.
    const [violation, desirability] = numbers;
    const candidate: BestSoFar = {
      number: number + 1,
      vector: Float64Array.from(vector),
      works: outcome === 'works',
      violation: outcome === 'works' ? 0 : (violation ?? Number.POSITIVE_INFINITY),
      desirability: desirability ?? 0,
    };
    if (this.#best === null || isBetter(candidate, this.#best)) this.#best = candidate;
  }
}

/** What works before what does not; then what breaks less; then what is worth more. */
const isBetter = (one: BestSoFar, other: BestSoFar): boolean =>
  one.works !== other.works
    ? one.works
    : one.violation !== other.violation
      ? one.violation < other.violation
      : one.desirability > other.desirability;
