import { StudyError } from '../disk/error.js';
import { scoringHash, version } from '../disk/root.js';
import type { Figure } from '../figure/figure.js';
import { quoted } from '../figure/text/input-error.js';
import type { FigureSource } from '../figure/text/source.js';
import { Scorer } from '../score/scorer.js';
import type { HeldOut } from '../search/held-out.js';
import type { TensorBackend } from '../search/tensor-backend.js';
import { begun, finishedBefore, type Given, resumed, type StudySettings } from './begin.js';
import { SAMPLES, SEARCH, SEED } from './defaults.js';
import { figureHash } from './figure-hash.js';
import type { FigurePool } from './figure-pool.js';
import { variablesOf } from './figure-variables.js';
import type { StudyFolder } from './folder.js';
import type { StudyLog } from './log.js';
import { Layout } from './row.js';
import { backendFor, searchFor } from './search-way.js';
import { runStudy, scoredOf } from './study.js';
import { StudyTable } from './table.js';

/** A study that is begun, or taken up again: close its log when done with it. */
export interface BegunStudy {
  readonly folder: StudyFolder;
  readonly log: StudyLog;
  readonly source: FigureSource;
  readonly figure: Figure;
  readonly settings: StudySettings;
  readonly backend: TensorBackend | null;
  /** Whether it goes on with what an earlier run left. */
  readonly isOld: boolean;
}

/**
 * Begins a study in its folder, or goes on with the one that was left there.
 * @param given what is asked for; the rest is as the earlier run had it, or as usual
 * @returns the study; or, asked to go on with one that is finished, how many of its dummies work
 * @throws StudyError when another study was left there, or one that would not end with the same results here
 */
export async function beginStudy(
  folder: StudyFolder,
  source: FigureSource,
  figure: Figure,
  given: Given,
  resume: boolean,
): Promise<BegunStudy | { readonly works: number }> {
  const { seed, samples, search } = given;
  const program = { version: version(), scoring: scoringHash() };
  const asked = { figure: figureHash(source), ...program, seed, samples, search };
  const earlier = resume ? resumed(folder, asked) : null;
  if (resume && earlier === null) {
    const done = finishedBefore(folder, asked);
    if (done !== null) return done;
  }
  const way = earlier?.settings.search ?? search ?? SEARCH;
  const backend = await backendFor(way);
  const settings = earlier?.settings ?? {
    ...asked,
    seed: seed ?? SEED,
    samples: samples === undefined ? SAMPLES : samples,
    search: way,
    backend: backend?.name ?? null,
  };
  if (settings.backend !== (backend?.name ?? null)) {
    earlier?.log.close();
    throw new StudyError(
      `The unfinished study in ${folder.path} was begun with TensorFlow.js on ${quoted(String(settings.backend))}, here it runs on '${backend?.name}': it would not end with the same results. Start anew without --resume.`,
    );
  }
  const log = earlier?.log ?? begun(folder, settings, source);
  return { folder, log, source, figure, settings, backend, isOld: earlier !== null };
}

/** All that a study has scored. */
export interface ScoredStudy {
  readonly table: StudyTable;
  readonly layout: Layout;
  /** False when it was stopped before its end. */
  readonly finished: boolean;
  readonly startedAt: string;
  readonly seconds: number;
  readonly scoredInThisRun: number;
  /** How well a surrogate did on candidates that it had not learnt from; null without one. */
  readonly surrogate: { readonly why: string; readonly heldOut: HeldOut | null } | null;
}

/**
 * Scores what there is to score. Yields after each dummy, also those that an earlier run had scored.
 * @param stop ends it as an interruption, to be gone on with
 * @param seconds after which it ends of itself, as finished
 */
export async function* scoreStudy(
  { folder, log, figure, settings, backend }: BegunStudy,
  pool: FigurePool,
  stop: AbortSignal,
  seconds?: number,
): AsyncGenerator<
  { readonly table: StudyTable; readonly layout: Layout; readonly isFresh: boolean },
  ScoredStudy
> {
  const before = log.size;
  const startedAt = new Date().toISOString();
  const started = performance.now();
  const saved = folder.savedState(log.size);
  const told = saved?.told ?? 0;
  const layout = new Layout(new Scorer(figure).score(figure.start));
  const search = searchFor(
    variablesOf(figure),
    { way: settings.search, seed: settings.seed, samples: settings.samples, own: figure.start },
    backend,
    saved === null ? null : { told, state: saved.search, record: () => recordOf(log, told, layout, figure) },
  );
  const over = seconds === undefined ? null : new TimeUp(seconds);
  const run = runStudy({
    folder,
    log,
    search,
    told,
    pool,
    layout,
    dims: figure.free.length,
    stop: over === null ? stop : AbortSignal.any([stop, over.signal]),
  });
  let step = await run.next();
  for (; !step.done; step = await run.next()) {
    over?.scored();
    yield { table: step.value, layout, isFresh: step.value.size > before };
  }
  const { table, finished } = step.value;
  return {
    table,
    layout,
    // Time that is up is an end; to be stopped is an interruption.
    finished: finished || (over?.signal.aborted === true && !stop.aborted),
    startedAt,
    seconds: Math.round(performance.now() - started) / 1000,
    scoredInThisRun: table.size - before,
    surrogate: backend === null ? null : { why: backend.why, heldOut: (await search.check?.()) ?? null },
  };
}

/** A machine may be slow, or nobody lend a core: for so many seconds more the first dummy is waited for. */
const FIRST_WITHIN = 60;

/** The end of a study that is given so many seconds: when they are over and something has been scored. */
class TimeUp {
  readonly #abort = new AbortController();
  readonly signal = this.#abort.signal;
  #any = false;
  #over = false;

  constructor(seconds: number) {
    setTimeout(() => {
      this.#over = true;
      if (this.#any) this.#abort.abort();
    }, seconds * 1000).unref();
    setTimeout(() => this.#abort.abort(), (seconds + FIRST_WITHIN) * 1000).unref();
  }

  scored(): void {
    this.#any = true;
    if (this.#over) this.#abort.abort();
  }
}

/** What the search had been told when it was kept: values of the dims, and scores. */
function* recordOf(log: StudyLog, told: number, layout: Layout, figure: Figure) {
  const table = StudyTable.of(log, figure.free.length, layout, told);
  for (let candidate = 0; candidate < told; candidate++)
    yield { vector: table.vector(candidate), scored: scoredOf(layout, table, candidate) };
}
