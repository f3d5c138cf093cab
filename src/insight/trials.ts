import { type FigurePool, type Trial, trialsIn } from '../study/figure-pool.js';
import type { Layout, Row } from '../study/row.js';
import { scoresOfRow } from '../study/scores.js';
import type { CutOutcome } from './hand/robustness.js';
import type { Batch, Verdicts } from './sensitivity/batch.js';

/** The trials were stopped, and what was asked of them is not known. */
export class Stopped extends Error {}

/** Trials of one figure in worker threads: what the measurements of sensitivity and tolerance ask for. */
export class FigureTrials {
  readonly #layout: Layout;
  /** What is asked while or after it is given ends with Stopped. */
  readonly stop: AbortSignal;
  readonly #pool: FigurePool;
  /** How many trials were asked for so far. */
  count = 0;

  constructor(pool: FigurePool, layout: Layout, stop: AbortSignal) {
    this.#layout = layout;
    this.stop = stop;
    this.#pool = pool;
  }

  /** All scores of candidates as drawn, in the order of `scoresOf`. */
  readonly scores: Batch = async (vectors) =>
    (await this.#run(vectors)).map(({ row }) => scoresOfRow(this.#layout, row));

  /** How candidates as drawn came out, or dummies of them cut by hand (dims, then errors). */
  readonly outcomes = async (vectors: Float64Array[]): Promise<CutOutcome[]> =>
    (await this.#run(vectors)).map(({ row }) => outcomeOf(this.#layout, row));

  /** What fails first of candidates as drawn. */
  readonly verdicts: Verdicts = async (vectors) => (await this.#run(vectors)).map(({ failure }) => failure);

  /** What fails first of dummies of one candidate, given their errors. */
  cutVerdicts(vector: Float64Array): Verdicts {
    return (errors) => this.verdicts(errors.map((each) => Float64Array.from([...vector, ...each])));
  }

  /** The same, and how each came out, in the order in which they were asked for. */
  cutDummies(vector: Float64Array): { verdicts: Verdicts; outcomes: CutOutcome[] } {
    const outcomes: CutOutcome[] = [];
    const verdicts: Verdicts = async (errors) => {
      const trials = await this.#run(errors.map((each) => Float64Array.from([...vector, ...each])));
      for (const { row } of trials) outcomes.push(outcomeOf(this.#layout, row));
      return trials.map(({ failure }) => failure);
    };
    return { verdicts, outcomes };
  }

  /** @throws Stopped */
  async #run(asked: Float64Array[]): Promise<Trial[]> {
    const trials: Trial[] = [];
    for await (const trial of trialsIn(this.#pool, this.#layout, asked, this.stop)) trials.push(trial);
    if (trials.length < asked.length) throw new Stopped('the trials were stopped');
    this.count += asked.length;
    return trials;
  }
}

/** What came of a dummy, from its row. */
export function outcomeOf(layout: Layout, { outcome, numbers }: Row): CutOutcome {
  const built = outcome === 'works' || outcome === 'fails';
  const sound = built && layout.violation(numbers) === 0;
  return { sound, worth: sound ? layout.desirability(numbers) || 0 : 0 };
}
