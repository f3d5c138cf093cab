import { Threads } from './threads.js';

/** At most so many candidates go in one message, */
const MOST_IN_PARCEL = 16;
/** and no more than this share of what is left of the batch. */
const SHARE = 1 / 6;

/** A parcel that takes longer than this hangs, ms. A candidate takes some tens of ms. */
const LIMIT = 20_000;

/** A candidate that could not be scored, even alone: the worker threw, hung or died. */
export class ScoringFailure {
  constructor(readonly reason: string) {}
}

export interface PoolOptions {
  /**
   * The compiled worker: a module whose default export takes an array of vectors, whether they are asked in short, and the data, and
   * returns one answer for each vector.
   */
  file: string;
  /** What each worker is given when it starts, and with each parcel. */
  data: unknown;
  workers: number;
  /** Whether the threads serve the next pool, too: those of a worker that goes by the data of each parcel may (see `Threads`). */
  lasting?: boolean;
  /** Milliseconds that a parcel may take. */
  limit?: number;
}

/**
 * Worker threads that score batches of vectors.
 *
 * A worker that throws, hangs past the limit or dies loses nothing: its parcel is tried once more, then each of its
 * candidates alone, and only one that fails alone is given up, with the reason.
 *
 * @example
 * for await (const answer of pool.run(vectors, stop)) …  // in the order of `vectors`
 */
export class WorkerPool<Answer> {
  readonly #threads: Threads;
  readonly #data: unknown;
  readonly #workers: number;
  readonly #limit: number;
  readonly #lasting: boolean;
  readonly #attempts = new Set<AbortController>();
  /** Whether an attempt was given up or went wrong: who knows what its thread does yet. */
  #isShaken = false;

  constructor({ file, data, workers, limit = LIMIT, lasting = false }: PoolOptions) {
    this.#data = data;
    this.#workers = workers;
    this.#limit = limit;
    this.#lasting = lasting;
    this.#threads = lasting ? Threads.taken(file, workers, data) : new Threads(file, workers, data);
    this.#threads.onCannotStart = () => {
      for (const attempt of this.#attempts) attempt.abort();
    };
  }

  /**
   * Answers in the order of the batch, each as soon as it and all before it are there. Ends early when stopped.
   * @param inShort told to the worker
   * @throws Error when no worker can start
   */
  async *run(
    batch: readonly Float64Array[],
    stop: AbortSignal,
    inShort = false,
  ): AsyncGenerator<Answer | ScoringFailure> {
    const halt = new AbortController();
    const onStop = () => halt.abort();
    stop.addEventListener('abort', onStop, { once: true });
    if (stop.aborted) halt.abort();
    try {
      const slots = new Slots(this.#workers);
      const parcels: Promise<(Answer | ScoringFailure)[]>[] = [];
      for (const parcel of parcelsOf(batch)) {
        const answers = slots.use(() => this.#score(parcel, inShort, halt.signal));
        // A parcel that nobody awaits yet must not count as an unhandled fault.
        answers.catch(() => {});
        parcels.push(answers);
      }
      for (const parcel of parcels) yield* await parcel;
    } catch (error) {
      if (!stop.aborted) throw error;
    } finally {
      // Whoever stops reading leaves parcels behind: they must not go on, nor start workers anew.
      halt.abort();
      stop.removeEventListener('abort', onStop);
    }
  }

  async close(): Promise<void> {
    if (this.#lasting && !this.#isShaken && this.#attempts.size === 0) await this.#threads.giveBack();
    else await this.#threads.end();
  }

  async #score(
    parcel: Float64Array[],
    inShort: boolean,
    halt: AbortSignal,
  ): Promise<(Answer | ScoringFailure)[]> {
    for (let attempt = 0; attempt < 2; attempt++) {
      const answers = await this.#attempt(parcel, inShort, halt);
      if (!(answers instanceof ScoringFailure)) return answers;
    }
    const alone: (Answer | ScoringFailure)[] = [];
    for (const vector of parcel) {
      const answers = await this.#attempt([vector], inShort, halt);
      alone.push(answers instanceof ScoringFailure ? answers : answers[0]);
    }
    return alone;
  }

  /** Throws only when halted, or when no worker can start. */
  async #attempt(
    parcel: Float64Array[],
    inShort: boolean,
    halt: AbortSignal,
  ): Promise<Answer[] | ScoringFailure> {
    halt.throwIfAborted();
    if (this.#threads.cannotStart) throw this.#threads.cannotStart;
    const own = new AbortController();
    this.#attempts.add(own);
    const onHalt = () => own.abort();
    halt.addEventListener('abort', onHalt, { once: true });
    const timer = setTimeout(() => {
      // If this thread was busy itself, the answer may be waiting unread: let it in before giving up on the worker.
      setImmediate(() => own.abort());
    }, this.#limit);
    try {
      const task = { vectors: parcel, inShort, data: this.#data };
      const answers = await this.#threads.run<Answer[]>(task, own.signal);
      if (answers.length === parcel.length) return answers;
      return new ScoringFailure(`scoring answered ${answers.length} of ${parcel.length} candidates`);
    } catch (error) {
      this.#isShaken = true;
      halt.throwIfAborted();
      if (this.#threads.cannotStart) throw this.#threads.cannotStart;
      if (own.signal.aborted) return new ScoringFailure(`scoring took longer than ${this.#limit / 1000} s`);
      return new ScoringFailure(`scoring failed: ${error instanceof Error ? error.message : String(error)}`);
    } finally {
      clearTimeout(timer);
      halt.removeEventListener('abort', onHalt);
      this.#attempts.delete(own);
    }
  }
}

/**
 * Cuts a batch into what goes in one message each: large at first, since a worker stands idle between two messages, and
 * smaller towards the end, so that the last workers finish close together (guided self-scheduling: C. Polychronopoulos,
 * D. Kuck, IEEE Transactions on Computers C-36(12), 1987). It does not hang on the number of workers, so that what is
 * tried again after a fault doesn't either.
 */
function* parcelsOf(batch: readonly Float64Array[]): Generator<Float64Array[]> {
  for (let from = 0, size = 0; from < batch.length; from += size) {
    size = Math.min(MOST_IN_PARCEL, Math.ceil(SHARE * (batch.length - from)));
    yield batch.slice(from, from + size);
  }
}

/** Lets so many tasks run at once; the others wait in the order in which they came. */
class Slots {
  readonly #waiting: (() => void)[] = [];
  #free: number;

  constructor(count: number) {
    this.#free = count;
  }

  async use<T>(task: () => Promise<T>): Promise<T> {
    if (this.#free > 0) this.#free--;
    else await new Promise<void>((ready) => this.#waiting.push(ready));
    try {
      return await task();
    } finally {
      const next = this.#waiting.shift();
      if (next) next();
      else this.#free++;
    }
  }
}
