import type { Row } from '../study/row.js';
import { ScoreLog, type ScoreRows } from '../study/score-log.js';

/** There is nothing left to spend, or the maker has stopped it: what was found so far is what there is. */
export class OutOfBudget extends Error {}

/** Candidates tried while tuning, each scored once. */
export class Trials {
  readonly #scoreRows: ScoreRows;
  readonly #budget: number;
  readonly #log: ScoreLog;
  readonly #onTried: (tried: number, row: Row) => void;
  readonly #known = new Map<string, Row>();

  constructor(
    scoreRows: ScoreRows,
    budget: number,
    log = new ScoreLog(null),
    onTried: (tried: number, row: Row) => void = () => {},
  ) {
    this.#scoreRows = scoreRows;
    this.#budget = budget;
    this.#log = log;
    this.#onTried = onTried;
  }

  /** How many different candidates were tried. */
  get tried(): number {
    return this.#known.size;
  }

  /**
   * The rows of a batch, in its order.
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
    const affordable = all.slice(0, Math.max(0, this.#budget - this.tried));
    let next = 0;
    for await (const row of this.#log.rows('tune', affordable, this.#scoreRows)) {
      this.#known.set(affordable[next++].join(), row);
      this.#onTried(this.tried, row);
    }
    if (next < all.length) throw new OutOfBudget();
    return batch.map((vector) => this.#known.get(vector.join()) as Row);
  }
}
