import { StudyError } from '../disk/error.js';
import type { StudyLog } from './log.js';
import type { Row } from './row.js';

/** Scores a batch in the order of the batch; it may end early when it is stopped. */
export type ScoreRows = (batch: readonly Float64Array[]) => AsyncIterable<Row>;

/**
 * What was scored, in the order in which it was asked for: told again from the log of a run that was interrupted as far as
 * that goes, scored and kept from there on. So a run that asks for the same again goes on where it was.
 */
export class ScoreLog {
  readonly #log: StudyLog | null;
  /** Of the log's candidates, the number of the one that is asked for next. */
  #next: number;

  /**
   * @param log null: nothing is kept
   * @param told how many of its candidates need not be told again
   */
  constructor(log: StudyLog | null, told = 0) {
    this.#log = log;
    this.#next = told;
  }

  /**
   * Rows of a batch, in its order. Ends early when scoring is stopped.
   * @throws StudyError when the log is of another run
   */
  async *rows(stage: string, batch: readonly Float64Array[], score: ScoreRows): AsyncGenerator<Row> {
    const known = Math.min(batch.length, Math.max(0, (this.#log?.size ?? 0) - this.#next));
    for (const vector of batch.slice(0, known)) yield this.#told(stage, vector);
    if (known === batch.length) return;
    let place = known;
    for await (const row of score(batch.slice(known))) {
      this.#log?.append({ stage, vector: batch[place++], row });
      this.#next++;
      yield row;
    }
  }

  #told(stage: string, vector: Float64Array): Row {
    const entry = this.#log?.at(this.#next++);
    if (entry?.stage !== stage || entry.vector.some((value, i) => value !== vector[i]))
      throw new StudyError(
        `Candidate ${this.#next} of the unfinished run is not the one that would be next. Start anew without --resume.`,
      );
    return entry.row;
  }
}
