import { createHash } from 'node:crypto';
import type { FigureSource } from '../figure/text/source.js';
import { figurePool, type Trial } from '../study/figure-pool.js';
import type { ScoringFailure, WorkerPool } from '../study/pool.js';
import { figureMessage, MOST_FIGURE, messageIn } from './messages.js';

/** Figures whose workers are kept: those of two studies may take turns. */
const KEPT = 2;

interface Held {
  pool: WorkerPool<Trial>;
  atWork: number;
}

/** Worker threads for the figures that a lender was asked to score, those of the last few kept. */
export class LentFigures {
  readonly #workers: number;
  readonly #fetch: (sha256: string) => Promise<string>;
  /** By their hashes, the one used last at the end. */
  readonly #held = new Map<string, Held>();

  /** @param fetch the message of a figure; empty where there is none */
  constructor(workers: number, fetch: (sha256: string) => Promise<string>) {
    this.#workers = workers;
    this.#fetch = fetch;
  }

  /**
   * Scores a parcel. Null where there is no such figure.
   * @throws Error when no worker can start: the figure is none
   */
  async score(
    sha256: string,
    vectors: readonly Float64Array[],
    inShort: boolean,
    stop: AbortSignal,
  ): Promise<(Trial | ScoringFailure)[] | null> {
    const held = this.#held.get(sha256) ?? (await this.#started(sha256));
    if (held === null) return null;
    this.#held.delete(sha256);
    this.#held.set(sha256, held);
    held.atWork++;
    try {
      const trials: (Trial | ScoringFailure)[] = [];
      for await (const trial of held.pool.run(vectors, stop, inShort)) trials.push(trial);
      return trials;
    } catch (error) {
      // Its workers can't start, and never will.
      this.#held.delete(sha256);
      void held.pool.close();
      throw error;
    } finally {
      held.atWork--;
      this.#dropOld();
    }
  }

  async close(): Promise<void> {
    await Promise.all([...this.#held.values()].map(({ pool }) => pool.close()));
  }

  async #started(sha256: string): Promise<Held | null> {
    const text = await this.#fetch(sha256);
    if (createHash('sha256').update(text).digest('hex') !== sha256) return null;
    const source: FigureSource | null = messageIn(figureMessage, text, MOST_FIGURE);
    if (source === null) return null;
    // Another parcel may have asked for it meanwhile.
    const other = this.#held.get(sha256);
    if (other !== undefined) return other;
    const held = { pool: figurePool(source, this.#workers), atWork: 0 };
    this.#held.set(sha256, held);
    return held;
  }

  #dropOld(): void {
    for (const [sha256, { pool, atWork }] of this.#held) {
      if (this.#held.size <= KEPT) return;
      if (atWork > 0) continue;
      this.#held.delete(sha256);
      void pool.close();
    }
  }
}
