import { createHash } from 'node:crypto';
import { availableParallelism } from 'node:os';
import { compileFigure, type Figure } from '../figure/figure.js';
import { InputError } from '../figure/input-error.js';
import { readFigure } from '../figure/read.js';
import type { FigureSource } from '../figure/source.js';
import type { Studied, Timings } from '../report/report-of.js';
import type { StudyReport } from '../report/study-report.js';
import { writeResults } from '../report/write-results.js';
import { Scorer } from '../score/scorer.js';
import type { Variable } from '../search/evaluator.js';
import { WorkerPool } from '../search/pool.js';
import { version, workerFile } from '../search/root.js';
import { runStudy } from '../search/study.js';
import { begun, finishedBefore, resumed, type StudySettings } from '../search/study-begin.js';
import { explained } from '../search/study-error.js';
import { StudyFolder } from '../search/study-folder.js';
import type { StudyLog } from '../search/study-log.js';
import { FIRST_COLUMNS } from '../search/study-results.js';
import { Layout, type Row } from '../search/study-row.js';
import { Sampler } from '../search/study-sampler.js';
import { SAMPLES, SEED } from './defaults.js';
import { DOES_NOT_WORK, FINE, INTERRUPTED } from './exit-codes.js';
import { inNumbers } from './numbers.js';
import { openFile } from './open-file.js';
import { Progress } from './progress.js';
import { resultsFolder } from './results-folder.js';

export interface ExploreOptions {
  samples?: number;
  seed?: number;
  workers?: number;
  out?: string;
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
  checkDims(figure, path);
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
  const { seed, samples } = options;
  const asked = { figure: hashOf(source), version: version(), seed, samples };
  const earlier = options.resume ? resumed(folder, asked) : null;
  if (options.resume && earlier === null) {
    const done = finishedBefore(folder, asked);
    if (done !== null) {
      console.log(`This study is finished: there is nothing to go on with in ${folder.path}.`);
      return done.works > 0 ? FINE : DOES_NOT_WORK;
    }
    console.error('There is nothing to go on with: starting from the beginning.');
  }
  const settings = earlier?.settings ?? { ...asked, seed: seed ?? SEED, samples: samples ?? SAMPLES };
  const log = earlier?.log ?? begun(folder, settings, source);
  try {
    const studied = await scoredIn(folder, log, source, figure, settings, options);
    if (studied.table.size === 0) {
      console.error('Interrupted before anything was scored.');
      return INTERRUPTED;
    }
    const { report, files } = await writeResults(folder, log, studied);
    if (studied.finished) folder.keepLog();
    else folder.dropKeptLog();
    console.log(
      conclusion(
        studied,
        report,
        files.map((name) => folder.file(name)),
      ).join('\n'),
    );
    if (options.open) openFile(folder.file('report.html'));
    if (!studied.finished) return INTERRUPTED;
    return report.table.outcome(report.ranking[0]) === 'works' ? FINE : DOES_NOT_WORK;
  } finally {
    log.close();
  }
}

/** Scores what there is to score, and shows how far it is. */
async function scoredIn(
  folder: StudyFolder,
  log: StudyLog,
  source: FigureSource,
  figure: Figure,
  settings: StudySettings,
  options: ExploreOptions,
): Promise<Studied & { timings: Timings }> {
  const workers = options.workers ?? availableParallelism();
  const pool = new WorkerPool<Row>({ file: workerFile('score'), data: source, workers });
  const progress = new Progress(settings.samples);
  const before = log.size;
  const startedAt = new Date().toISOString();
  const started = performance.now();
  const told = folder.savedState(log.size)?.told ?? 0;
  const layout = new Layout(new Scorer(figure).score(figure.start));
  let working = 0;
  try {
    const { table, finished } = await runStudy({
      folder,
      log,
      search: new Sampler(variablesOf(figure), settings.seed, settings.samples, told),
      told,
      pool,
      layout,
      dims: figure.free.length,
      stop: stopOnSignal(),
      onScored(table) {
        if (table.outcome(table.size - 1) === 'works') working++;
        progress.update(table.size, Math.max(0, table.size - before), working);
      },
    });
    const seconds = Math.round(performance.now() - started) / 1000;
    const timings = { startedAt, seconds, workers, scoredInThisRun: table.size - before };
    return { source, figure, layout, settings, table, finished, timings };
  } finally {
    progress.stop();
    await pool.close();
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

function checkDims(figure: Figure, file: string): void {
  if (figure.free.length === 0) {
    const remedy =
      "give at least one dim a range or a choice, or score the figure as it is with 'dummyrun check'";
    throw new InputError({ file, field: 'dims', found: 'no dim that is free', remedy });
  }
  const taken = figure.free.find(({ name }) => FIRST_COLUMNS.some((column) => column === name));
  if (taken) {
    const remedy = 'call it something else: the tables of results have a column of that name';
    throw new InputError({ file, field: `dims.${taken.name}`, found: `the name '${taken.name}'`, remedy });
  }
}

/** SHA-256 of the figure as it was understood: remarks and blanks in the file don't count, drawings do. */
function hashOf(source: FigureSource): string {
  return createHash('sha256').update(JSON.stringify(source.data)).digest('hex');
}

/** The free dims as search sees them. */
function variablesOf(figure: Figure): Variable[] {
  return figure.free.map((dim) =>
    dim.kind === 'choice'
      ? { name: dim.name, kind: 'choice', options: dim.options.length }
      : { name: dim.name, kind: 'real', min: dim.min, max: dim.max, step: dim.step },
  );
}

/** Stops at Ctrl-C, so that a study ends cleanly; the second time, the program ends at once. */
function stopOnSignal(): AbortSignal {
  const stop = new AbortController();
  process.once('SIGINT', () => {
    console.error('\nEnding: what was scored so far is ranked and kept. Ctrl-C again ends at once.');
    stop.abort();
  });
  return stop.signal;
}
