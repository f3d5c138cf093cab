import { availableParallelism } from 'node:os';
import { setFlagsFromString } from 'node:v8';
import { explained, StudyError } from '../disk/error.js';
import { version } from '../disk/root.js';
import { compileFigure, type Figure } from '../figure/figure.js';
import { readFigure } from '../figure/read.js';
import { faultAt } from '../figure/text/check.js';
import { quoted } from '../figure/text/input-error.js';
import type { FigureSource } from '../figure/text/source.js';
import type { Studied, Timings } from '../report/report-of.js';
import type { StudyReport } from '../report/study-report.js';
import { FIRST_COLUMNS } from '../report/tables.js';
import { writeResults } from '../report/write-results.js';
import { Scorer } from '../score/scorer.js';
import type { TensorBackend } from '../search/tensor-backend.js';
import { begun, finishedBefore, resumed, type StudySettings } from '../study/begin.js';
import { type FigurePool, figurePool } from '../study/figure-pool.js';
import { variablesOf } from '../study/figure-variables.js';
import { StudyFolder } from '../study/folder.js';
import type { StudyLog } from '../study/log.js';
import { Layout } from '../study/row.js';
import { backendFor, type SearchWay, searchFor } from '../study/search-way.js';
import { runStudy, scoredOf } from '../study/study.js';
import { StudyTable } from '../study/table.js';
import { SAMPLES, SEARCH, SEED } from './defaults.js';
import { DOES_NOT_WORK, FINE, INTERRUPTED } from './exit-codes.js';
import { figureHash } from './figure-hash.js';
import { insightOf } from './insight.js';
import { inNumbers } from './numbers.js';
import { openFile } from './open-file.js';
import { say, tell } from './print.js';
import { Progress } from './progress.js';
import { resultsFolder } from './results-folder.js';
import { stopOnSignal } from './stop-on-signal.js';

export interface ExploreOptions {
  samples?: number;
  seed?: number;
  workers?: number;
  out?: string;
  /** Seconds after which it ends. */
  for?: number;
  search?: SearchWay;
  resume: boolean;
  open: boolean;
}

/**
 * Explores a figure: scores many candidates in worker threads, ranks them and writes the results.
 * @returns the exit code
 * @throws InputError for a figure file that can't be used, StudyError for a folder that can't
 */
export async function explore(path: string, options: ExploreOptions): Promise<number> {
  const source = readFigure(path);
  const figure = compileFigure(source);
  checkDims(figure, source);
  keepHeapSmall();
  const out = options.out ?? resultsFolder(path);
  try {
    const folder = new StudyFolder(out);
    try {
      return await exploreIn(folder, source, figure, options);
    } finally {
      folder.close();
    }
  } catch (error) {
    throw explained(error, out);
  }
}

async function exploreIn(
  folder: StudyFolder,
  source: FigureSource,
  figure: Figure,
  options: ExploreOptions,
): Promise<number> {
  const { seed, search } = options;
  const samples = options.samples ?? (options.for === undefined ? undefined : null);
  const asked = { figure: figureHash(source), version: version(), seed, samples, search };
  const earlier = options.resume ? resumed(folder, asked) : null;
  if (options.resume && earlier === null) {
    const done = finishedBefore(folder, asked);
    if (done !== null) {
      say(`This study is finished: there is nothing to go on with in ${folder.path}.`);
      return done.works > 0 ? FINE : DOES_NOT_WORK;
    }
    tell('There is nothing to go on with: starting from the beginning.');
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
  try {
    const stop = stopOnSignal('Ending: what was scored so far is ranked and kept.');
    const studied = await studiedIn({ folder, log, source, figure, settings, backend, options, stop });
    if (studied.table.size === 0) {
      tell('Interrupted before anything was scored.');
      return INTERRUPTED;
    }
    const { report, files } = await writeResults(folder, log, studied);
    if (studied.finished) folder.keepLog();
    else folder.dropKeptLog();
    say(
      ...conclusion(
        studied,
        report,
        files.map((name) => folder.file(name)),
      ),
    );
    if (options.open) openFile(folder.file('report.html'));
    if (!studied.finished) return INTERRUPTED;
    return report.table.outcome(report.ranking[0]) === 'works' ? FINE : DOES_NOT_WORK;
  } finally {
    log.close();
  }
}

/**
 * Lets garbage grow to half of what is in use before it is looked for, where V8 would let it grow to several times that:
 * over a quarter less memory for a million dummies, in the same time.
 */
function keepHeapSmall(): void {
  setFlagsFromString('--heap-growing-percent=50');
}

/** What a run of a study goes by. */
interface Run {
  readonly folder: StudyFolder;
  readonly log: StudyLog;
  readonly source: FigureSource;
  readonly figure: Figure;
  readonly settings: StudySettings;
  readonly backend: TensorBackend | null;
  readonly options: ExploreOptions;
  readonly stop: AbortSignal;
}

/** Scores and measures, with workers that are gone once that is done: to write results for, they would take up memory. */
async function studiedIn(run: Run): Promise<Studied & { timings: Timings }> {
  const workers = run.options.workers ?? availableParallelism();
  const pool = figurePool(run.source, workers);
  try {
    const scored = await scoredIn(run, pool, workers);
    const insight = scored.finished ? await insightOf(scored, run.settings.seed, pool, run.stop) : null;
    return { ...scored, insight, finished: insight !== null };
  } finally {
    await pool.close();
  }
}

/** Scores what there is to score, and shows how far it is. */
async function scoredIn(
  { folder, log, source, figure, settings, backend, options, stop }: Run,
  pool: FigurePool,
  workers: number,
): Promise<Studied & { timings: Timings }> {
  const progress = new Progress(settings.samples, options.for ?? null);
  const before = log.size;
  const startedAt = new Date().toISOString();
  const started = performance.now();
  const saved = folder.savedState(log.size);
  const told = saved?.told ?? 0;
  const layout = new Layout(new Scorer(figure).score(figure.start));
  const search = searchFor(
    variablesOf(figure),
    { way: settings.search, seed: settings.seed, samples: settings.samples },
    backend,
    saved === null ? null : { told, state: saved.search, record: () => recordOf(log, told, layout, figure) },
  );
  const over = options.for === undefined ? null : AbortSignal.timeout(options.for * 1000);
  let working = 0;
  try {
    const ran = await runStudy({
      folder,
      log,
      search,
      told,
      pool,
      layout,
      dims: figure.free.length,
      stop: over === null ? stop : AbortSignal.any([stop, over]),
      onScored(table) {
        if (table.outcome(table.size - 1) === 'works') working++;
        progress.update(table.size, Math.max(0, table.size - before), working);
      },
    });
    const { table } = ran;
    // Time that is up is an end; Ctrl-C is an interruption.
    const finished = ran.finished || (over?.aborted === true && !stop.aborted);
    const surrogate =
      backend === null ? null : { why: backend.why, heldOut: (await search.check?.()) ?? null };
    const seconds = Math.round(performance.now() - started) / 1000;
    const timings = { startedAt, seconds, workers, scoredInThisRun: table.size - before };
    return { source, figure, layout, settings, table, finished, timings, surrogate };
  } finally {
    progress.stop();
  }
}

/** What the search had been told when it was kept: values of the dims, and scores. */
function* recordOf(log: StudyLog, told: number, layout: Layout, figure: Figure) {
  const table = new StudyTable(figure.free.length, layout);
  while (table.size < told) {
    const entry = log.at(table.size);
    table.add(entry);
    yield { vector: entry.vector, scored: scoredOf(layout, table, table.size - 1) };
  }
}

/** What came out: in words, then in numbers, then in which files. */
function conclusion(
  { finished, source, timings }: Studied & { timings: Timings },
  report: StudyReport,
  files: readonly string[],
): string[] {
  return [
    ...report.summary,
    '',
    ...inNumbers(report, source.file, timings),
    '',
    'Files',
    ...files.map((file) => `  ${file}`),
    ...(finished ? [] : ['', 'To go on with it, give the same command with --resume.']),
  ];
}

function checkDims(figure: Figure, source: FigureSource): void {
  if (figure.free.length === 0) {
    const remedy =
      "give at least one dim a range or a choice, or score the figure as it is with 'dummyrun check'";
    throw faultAt(source, ['dims'], remedy, 'no dim that is free');
  }
  const taken = figure.free.find(({ name }) => FIRST_COLUMNS.some((column) => column === name));
  if (taken) {
    const remedy = 'call it something else: the tables of results have a column of that name';
    throw faultAt(source, ['dims', taken.name], remedy, `the name '${taken.name}'`);
  }
}
