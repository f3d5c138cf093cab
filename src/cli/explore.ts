import { setFlagsFromString } from 'node:v8';
import { compileFigure, type Figure } from '../figure/figure.js';
import { readFigure } from '../figure/read.js';
import { faultAt } from '../figure/text/check.js';
import type { FigureSource } from '../figure/text/source.js';
import { INSIGHT_FILE } from '../insight/kept-insight.js';
import type { Studied, Timings } from '../report/report-of.js';
import type { StudyReport } from '../report/study-report.js';
import { FIRST_COLUMNS } from '../report/tables.js';
import { unusedInWords } from '../report/words/warning-words.js';
import { writeResults } from '../report/write-results.js';
import { type BegunStudy, beginStudy, type ScoredStudy, scoreStudy } from '../study/explore.js';
import type { FigurePool } from '../study/figure-pool.js';
import { inFolder, type StudyFolder } from '../study/folder.js';
import type { SearchWay } from '../study/search-way.js';
import { inNumbers } from './best-in-numbers.js';
import { EarlyPage } from './early-page.js';
import { DOES_NOT_WORK, FINE, INTERRUPTED } from './exit-codes.js';
import { insightOf } from './insight.js';
import { openFile } from './open-file.js';
import { say, tell } from './print.js';
import { Progress } from './progress.js';
import { resultsFolder } from './results-folder.js';
import { scoringPool } from './scoring-pool.js';
import { stopOnSignal } from './stop-on-signal.js';
import { tellIfNew } from './tell-if-new.js';

export interface ExploreOptions {
  samples?: number;
  seed?: number;
  workers?: number;
  /** The address of a queue over which others lend their cores. */
  queue?: string;
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
  return inFolder(out, (folder) => exploreIn(folder, source, figure, options));
}

async function exploreIn(
  folder: StudyFolder,
  source: FigureSource,
  figure: Figure,
  options: ExploreOptions,
): Promise<number> {
  const given = {
    seed: options.seed,
    samples: options.samples ?? (options.for === undefined ? undefined : null),
    search: options.search,
  };
  const study = await beginStudy(folder, source, figure, given, options.resume);
  if ('works' in study) {
    say(`This study is finished: there is nothing to go on with in ${folder.path}.`);
    return study.works > 0 ? FINE : DOES_NOT_WORK;
  }
  tellIfNew(options, study.isOld);
  if (figure.unused.length > 0) tell(unusedInWords(figure.unused));
  const { log } = study;
  try {
    const stop = stopOnSignal('Ending: what was scored so far is ranked and kept.');
    const report = folder.file('report.html');
    tell(`The report is written as it goes, a few seconds from now: ${report}`);
    let opened = false;
    const page = new EarlyPage(study, () => {
      opened = options.open;
      if (opened) openFile(report);
    });
    const studied = await studiedIn(study, options, page, stop);
    if (studied.table.size === 0) {
      tell('Interrupted before anything was scored.');
      return INTERRUPTED;
    }
    const { report: found, files } = await writeResults(folder, log, studied);
    if (studied.finished) folder.keepLog(log, [INSIGHT_FILE]);
    else folder.dropKeptLog();
    say(
      ...conclusion(
        studied,
        found,
        folder.path,
        files.map((name) => folder.file(name)),
      ),
    );
    if (options.open && !opened) openFile(report);
    if (!studied.finished) return INTERRUPTED;
    return found.table.outcome(found.ranking[0]) === 'works' ? FINE : DOES_NOT_WORK;
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

/** Scores and measures, with workers that are gone once that is done: to write results for, they would take up memory. */
async function studiedIn(
  study: BegunStudy,
  options: ExploreOptions,
  page: EarlyPage,
  stopped: AbortSignal,
): Promise<Studied & { timings: Timings }> {
  const { source, figure, settings } = study;
  const { pool, stop, workers, close } = await scoringPool(source, figure, options, stopped);
  try {
    const { startedAt, seconds, scoredInThisRun, ...scored } = await scoredIn(
      study,
      pool,
      options,
      page,
      stop,
    );
    const timings = { startedAt, seconds, workers: workers(), scoredInThisRun };
    const all = { source, figure, settings, timings, ...scored };
    if (all.finished) page.measuring(all.table, all.layout);
    // Of a study that was gone on with, this run has scored a part.
    const whole = scoredInThisRun === 0 ? null : (seconds * all.table.size) / scoredInThisRun;
    const insight = all.finished
      ? await insightOf(all, settings.seed, pool, stop, whole, (robust) =>
          page.measuring(all.table, all.layout, robust),
        )
      : null;
    return { ...all, insight, finished: insight !== null };
  } finally {
    await close();
  }
}

/** Scores what there is to score, and shows how far it is. */
async function scoredIn(
  study: BegunStudy,
  pool: FigurePool,
  options: ExploreOptions,
  page: EarlyPage,
  stop: AbortSignal,
): Promise<ScoredStudy> {
  const progress = new Progress(study.settings.samples, options.for ?? null);
  let [fresh, working] = [0, 0];
  try {
    const scoring = scoreStudy(study, pool, stop, options.for);
    let step = await scoring.next();
    for (; !step.done; step = await scoring.next()) {
      const { table, layout, isFresh } = step.value;
      if (isFresh) fresh++;
      if (table.outcome(table.size - 1) === 'works') working++;
      progress.update(table.size, fresh, working);
      page.scoring(table, layout);
    }
    return step.value;
  } finally {
    progress.stop();
  }
}

/** What came out: in words, then in numbers, then in which files. */
function conclusion(
  { finished, source, timings }: Studied & { timings: Timings },
  report: StudyReport,
  folder: string,
  files: readonly string[],
): string[] {
  return [
    ...report.summary,
    '',
    ...inNumbers(report, source.file, finished ? folder : null, timings),
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
