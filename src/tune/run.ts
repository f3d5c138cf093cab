import { type FigurePool, rowsIn } from '../study/figure-pool.js';
import type { Row } from '../study/row.js';
import type { ScoreLog } from '../study/score-log.js';
import { OutOfBudget, Trials } from './trials.js';
import type { OnNearer, Tuned, Tuning } from './tune.js';

export interface TuneRun {
  /** Workers that know the figure of `tuning.opened`. */
  readonly pool: FigurePool;
  /** How many dummies to try at most. */
  readonly trials: number;
  readonly stop: AbortSignal;
  /** Keeps what was scored, to go on with it after an interruption. */
  readonly log?: ScoreLog;
  /** Called after each dummy, also one that comes from the log. */
  readonly onTried?: (tried: number, row: Row) => void;
  /** As of `Tuning.run`. */
  readonly onNearer?: OnNearer;
}

/** Looks for remedies in worker threads, and cuts the first by hand. @returns null when it was stopped before anything was tried */
export async function runTuning(
  tuning: Tuning,
  { pool, trials, stop, log, onTried, onNearer }: TuneRun,
): Promise<Tuned | null> {
  const scoring = (batch: readonly Float64Array[]) => rowsIn(pool, tuning.layout, batch, stop);
  try {
    const tuned = await tuning.run(new Trials(scoring, trials, log, onTried), onNearer);
    return await tuning.withRoomForHand(tuned, scoring, stop);
  } catch (error) {
    if (error instanceof OutOfBudget) return null;
    throw error;
  }
}
