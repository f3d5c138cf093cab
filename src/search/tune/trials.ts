import { StudyError } from '../study-error.js';
import type { StudyLog } from '../study-log.js';
import type { Row } from '../study-row.js';

/** Scores a batch in the order of the batch; it may end early when it is stopped. */
export type ScoreRows = (batch: readonly Float64Array[]) => AsyncIterable<Row>;

/** There is nothing left to spend, or the maker has stopped it: what was found so far is what there is. */
export class OutOfBudget extends Error {}

/**
 * Candidates tried while tuning. Each is scored once and kept in the log, so that a run that was killed finds again what
 * it has scored, in the same order, and goes on from there.
 */
export class Trials {
  readonly #known = new Map<string, Row>();
  #tried = 0;

  constructor(
    private readonly scoreRows: ScoreRows,
    private readonly budget: number,
    /** null: nothing is kept. */
    private readonly log: StudyLog | null = null,
    private readonly onTried: (tried: number, row: Row) => void = () => {},
  ) {}

  /** How many different candidates were tried. */
  get tried(): number {
    return this.#tried;
  }

  /**
   * @throws OutOfBudget where not all of them can be scored any more; what could be is known all the same
   * @throws StudyError when the log is of another run
   */
  async rows(batch: readonly Float64Array[]): Promise<Row[]> {
    const fresh = new Map<string, Float64Array>();
    for (const vector of batch) {
      const key = vector.join();
      if (!this.#known.has(key)) fresh.set(key, vector);
    }
    const all = [...fresh.values()];
    const affordable = all.slice(0, Math.max(0, this.budget - this.#tried));
    const kept = affordable.slice(0, Math.max(0, (this.log?.size ?? 0) - this.#tried));
    for (const vector of kept) this.#note(vector, this.#fromLog(vector));
    const rest = affordable.slice(kept.length);
    let next = 0;
    if (rest.length > 0)
      for await (const row of this.scoreRows(rest)) {
        const vector = rest[next++];
        this.log?.append({ stage: 'tune', vector, row });
        this.#note(vector, row);
      }
    if (next < rest.length || affordable.length < all.length) throw new OutOfBudget();
    return batch.map((vector) => this.#known.get(vector.join()) as Row);
  }

  #note(vector: Float64Array, row: Row): void {
    this.#known.set(vector.join(), row);
    this.#tried++;
    this.onTried(this.#tried, row);
  }

  #fromLog(vector: Float64Array): Row {
    const entry = this.log?.at(this.#tried);
    if (entry === undefined || entry.vector.some((value, i) => value !== vector[i]))
      throw new StudyError(
        `Candidate ${this.#tried + 1} of the unfinished run is not the one that would be next. Start anew without --resume.`,
      );
    return entry.row;
  }
}
