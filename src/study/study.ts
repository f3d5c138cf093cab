import type { Scored } from '../search/evaluator.js';
import { type FigurePool, rowsIn } from './figure-pool.js';
import type { StudyFolder } from './folder.js';
import type { StudyLog } from './log.js';
import type { Layout } from './row.js';
import { ScoreLog } from './score-log.js';
import { StudyTable } from './table.js';

/** The state of the search is kept so often, ms; what was scored since is in the log, and told again. */
const SAVE_EVERY = 5_000;

/** What a study needs of a search: candidates to score, until there are none left to ask for. */
export interface Asker {
  ask(): Promise<{ stage: string; batch: Float64Array[]; inShort?: boolean } | null>;
  tell(scored: Scored[]): void;
  save(): unknown;
}

export interface StudyParts {
  folder: StudyFolder;
  log: StudyLog;
  search: Asker;
  /** How many candidates of the log the search has been told of already. */
  told: number;
  pool: FigurePool;
  layout: Layout;
  dims: number;
  stop: AbortSignal;
}

/**
 * Runs a study to its end, or until it is stopped: asks the search what to score, has it scored, keeps it, and tells the
 * search. Everything stands in the order in which it was asked for, whichever worker was first, and candidates that
 * the log holds are not scored again: so a study that was killed goes on as if it never had been.
 *
 * Yields the table after each candidate, also one that comes from the log: it is the last of it. Whoever leaves off keeps
 * what was scored, and can go on with it later.
 * @returns all that was scored, and whether that is all there was to do
 * @throws StudyError when the log is of another study
 */
export async function* runStudy(
  parts: StudyParts,
): AsyncGenerator<StudyTable, { table: StudyTable; finished: boolean }> {
  const { folder, log, search, told, pool, layout, stop } = parts;
  const table = StudyTable.of(log, parts.dims, layout, told);
  const kept = new ScoreLog(log, told);
  let saved = performance.now();
  while (!stop.aborted) {
    const asked = await search.ask();
    if (asked === null) return { table, finished: true };
    const { stage, batch, inShort } = asked;
    const score = (rest: readonly Float64Array[]) => rowsIn(pool, layout, rest, stop, inShort);
    const scored: Scored[] = [];
    for await (const row of kept.rows(stage, batch, score)) {
      table.add({ stage, vector: batch[scored.length], row });
      scored.push(scoredOf(layout, table, table.size - 1));
      yield table;
    }
    // Stopped in the middle of a batch: the search hears of none of it, and on resuming of all of it.
    if (scored.length < batch.length) break;
    search.tell(scored);
    if (performance.now() - saved > SAVE_EVERY) {
      log.flush();
      folder.saveState(table.size, search.save());
      saved = performance.now();
    }
  }
  return { table, finished: false };
}

/** What a want counts at least that is missed, where a millimetre beyond a limit counts 1; and one that is not known. */
const MISSED = 1e-3;
const UNKNOWN = 1;

/**
 * What the search is told of a candidate: how far each want is from being wholly met, and by how much it does not work: how far
 * it breaks limits, and how far wants are from being met at all. So the search breeds from what works, and not from what is as
 * much better in one want as it misses another.
 */
export function scoredOf(layout: Layout, table: StudyTable, candidate: number): Scored {
  const outcome = table.outcome(candidate);
  const numbers = table.numbers(candidate);
  const met = table.met(candidate);
  // Of one that was scored in short it is no number.
  const known = (outcome === 'works' || outcome === 'fails') && !Number.isNaN(layout.violation(numbers));
  let missed = 0;
  for (const want of layout.wants.keys()) {
    if (met[want] === 1) continue;
    const worth = layout.wantDesirability(numbers, want);
    // Right at its bound a want is worth a half.
    missed += Number.isNaN(worth) ? UNKNOWN : Math.max(MISSED, 0.5 - worth);
  }
  return {
    objectives: Float64Array.from(layout.wants, (_, want) => 1 - layout.wantDesirability(numbers, want)),
    violation: known ? layout.violation(numbers) + missed : Number.POSITIVE_INFINITY,
    failures: Float64Array.from(layout.limits, (_, limit) => 1 - met[layout.wants.length + limit]),
  };
}
