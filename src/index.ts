/**
 * dummyrun as a library: the dims of moving pop-up figures, explored before any card is cut. The commands use the same
 * functions. Lengths are mm, angles degrees; nothing that is given back is changed by a later call.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Comparison } from './compare/compare.js';
import { runComparison } from './compare/run.js';
import { MOST_VARIANTS, variantsOfFiles } from './compare/variants.js';
import { explained, StudyError } from './disk/error.js';
import { compileFigure, type Figure } from './figure/figure.js';
import { readFigure } from './figure/read.js';
import { type FigureSource, parseFigure } from './figure/text/source.js';
import type { Scorecard } from './score/scorecard.js';
import { Scorer } from './score/scorer.js';
import { readPanelArt } from './sheets/art/read-art.js';
import { type MadeSheets, makeSheets } from './sheets/make-sheets.js';
import type { SheetOptions } from './sheets/settings.js';
import type { Given } from './study/begin.js';
import {
  COMPARE_SAMPLES,
  LEAST_SEEDS,
  MOST_COMPARE_SAMPLES,
  MOST_SAMPLES,
  MOST_SECONDS,
  MOST_SEED,
  MOST_SEEDS,
  MOST_WORKERS,
  TRIALS,
} from './study/defaults.js';
import { beginStudy, scoreStudy } from './study/explore.js';
import { figurePool } from './study/figure-pool.js';
import { StudyFolder } from './study/folder.js';
import { rankedStudy } from './study/ranking.js';
import type { Layout, Outcome } from './study/row.js';
import { ScoreLog } from './study/score-log.js';
import { SEARCH_WAYS } from './study/search-way.js';
import type { StudyTable } from './study/table.js';
import { whole } from './study/whole.js';
import { runTuning } from './tune/run.js';
import { type Tuned, type TuneOptions, Tuning } from './tune/tune.js';

export type { Comparison } from './compare/compare.js';
export { StudyError } from './disk/error.js';
export { InputError } from './figure/text/input-error.js';
export type { FigureSource } from './figure/text/source.js';
export type { Finding, Unknown } from './limits/finding.js';
export type { LimitScore } from './limits/judge.js';
export { CannotBuild } from './motion/cannot-build.js';
export { scorecardInWords } from './report/words/scorecard-words.js';
export type { Scorecard, WantScore } from './score/scorecard.js';
export type { MadeSheets, SheetFile } from './sheets/make-sheets.js';
export type { SheetOptions } from './sheets/settings.js';
export type { Outcome } from './study/row.js';
export type { Remedy, Tuned, TuneOptions } from './tune/tune.js';

/** Values of dims by name: numbers, and options of choices. Dims that are not named are as the figure file has them. */
export type Dims = Readonly<Record<string, number | string>>;

/**
 * Reads a figure file with its drawings.
 * @throws InputError with file, line, what was found and what would do
 * @example
 * const figure = read('examples/heron.yaml');
 */
export const read = (path: string): FigureSource => readFigure(textGiven(path, 'the path of a figure file'));

/**
 * A figure from the text of a figure file; it can name no drawings.
 * @param name what messages call the file
 * @throws InputError with line, what was found and what would do
 * @example
 * const figure = parse(`page: A5
 * parts:
 *   - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [30, 30], widths: [40, 40] }`);
 */
export const parse = (text: string, name = 'figure.yaml'): FigureSource =>
  parseFigure(textGiven(text, 'the text of a figure file'), textGiven(name, 'its name'));

/**
 * Scores one dummy. What can't be built has a scorecard, too: `cannotBuild` says why.
 * @throws InputError for a figure that can't be understood, or a dim that can't have that value
 * @example
 * const card = score(figure, { high: 18 });
 * card.works; // false
 * card.limits.filter(({ met }) => !met).map(({ finding }) => finding);
 */
export function score(source: FigureSource, dims: Dims = {}): Scorecard {
  const figure = compiled(source);
  return new Scorer(figure).score(figure.vectorFrom(settingsOf(dims)));
}

/** One dummy of a study. */
export interface Dummy {
  /** Its number, from 1, in the order in which it was asked for. */
  readonly number: number;
  /** Which stage of the search asked for it. */
  readonly stage: string;
  readonly dims: Dims;
  readonly outcome: Outcome;
  /** 0 to 1; null where a want could not be computed. */
  readonly desirability: number | null;
  /**
   * The sum over limits of what is beyond them; null where it could not be built, or fails by its motion and was not looked at
   * further, as the search does once enough work.
   */
  readonly violation: number | null;
  /** By name, mm or degrees as the want says; null where it could not be computed. */
  readonly wants: Readonly<Record<string, number | null>>;
  readonly limits: Readonly<Record<string, number | null>>;
}

export interface ExploreOptions extends Given {
  /** Threads to score with; one for each core if not given. */
  readonly workers?: number;
  /** Where to keep what was scored, so that it can be gone on with; if not given, a folder that is gone at the end. */
  readonly folder?: string;
  /** Whether to go on with what an earlier run left in that folder. */
  readonly resume?: boolean;
  /** Seconds after which it ends. */
  readonly seconds?: number;
  readonly signal?: AbortSignal;
}

/**
 * Explores a figure: yields every dummy as it is scored, and gives them back ranked, best first. The same seed gives the
 * same dummies with any number of workers. To leave the loop ends the study.
 * @throws InputError for a figure that can't be used, StudyError for a folder that can't or that holds a finished study,
 *   RangeError for an option beyond its bounds
 * @example
 * const working = [];
 * for await (const dummy of explore(figure, { samples: 20 })) if (dummy.outcome === 'works') working.push(dummy.dims);
 */
export async function* explore(
  source: FigureSource,
  {
    workers = availableParallelism(),
    folder,
    resume = false,
    seconds,
    signal,
    ...given
  }: ExploreOptions = {},
): AsyncGenerator<Dummy, readonly Dummy[]> {
  const figure = compiled(source);
  const { samples = null, seed = 0, search = 'samples' } = given;
  if (samples !== null) whole(samples, 'samples', 1, MOST_SAMPLES);
  whole(seed, 'seed', 0, MOST_SEED);
  whole(workers, 'workers', 1, MOST_WORKERS);
  if (!SEARCH_WAYS.includes(search))
    throw new RangeError(`found search ${String(search)}; give one of ${SEARCH_WAYS.join(', ')}`);
  if (seconds !== undefined && !(seconds > 0 && seconds <= MOST_SECONDS))
    throw new RangeError(`found seconds ${String(seconds)}; give a time of a week at most`);
  const stop = new AbortController();
  const onAbort = () => stop.abort();
  signal?.addEventListener('abort', onAbort, { once: true });
  if (signal?.aborted) stop.abort();
  const own = folder ?? mkdtempSync(join(tmpdir(), 'dummyrun-'));
  let kept: StudyFolder | null = null;
  let pool: ReturnType<typeof figurePool> | null = null;
  try {
    kept = new StudyFolder(own);
    pool = figurePool(source, workers);
    const study = await beginStudy(kept, source, figure, given, resume);
    if ('works' in study)
      throw new StudyError(`The study in ${own} is finished: there is nothing to go on with.`);
    try {
      const dummyOf = (table: StudyTable, layout: Layout, candidate: number): Dummy => {
        const values = figure.values(table.vector(candidate));
        const numbers = table.numbers(candidate);
        const known = (value: number) => (Number.isNaN(value) ? null : value);
        return {
          number: candidate + 1,
          stage: table.stage(candidate),
          dims: Object.fromEntries(figure.free.map(({ name }) => [name, values.get(name) ?? ''])),
          outcome: table.outcome(candidate),
          desirability: known(layout.desirability(numbers)),
          violation: known(layout.violation(numbers)),
          wants: Object.fromEntries(
            layout.wants.map(({ name }, want) => [name, known(layout.wantValue(numbers, want))]),
          ),
          limits: Object.fromEntries(
            layout.limits.map(({ name }, limit) => [name, known(layout.limitValue(numbers, limit))]),
          ),
        };
      };
      const scoring = scoreStudy(study, pool, stop.signal, seconds);
      let step = await scoring.next();
      for (; !step.done; step = await scoring.next()) {
        const { table, layout } = step.value;
        yield dummyOf(table, layout, table.size - 1);
      }
      const { table, layout } = step.value;
      return Array.from(rankedStudy(table, layout), (candidate) => dummyOf(table, layout, candidate));
    } finally {
      study.log.close();
    }
  } catch (error) {
    throw explained(error, own);
  } finally {
    stop.abort();
    signal?.removeEventListener('abort', onAbort);
    await pool?.close();
    kept?.close();
    if (folder === undefined) rmSync(own, { recursive: true, force: true });
  }
}

export interface TuneRunOptions extends Partial<TuneOptions> {
  /** How many dummies to score at most; 10,000 if not given. */
  readonly trials?: number;
  readonly workers?: number;
  readonly signal?: AbortSignal;
}

/**
 * Says what is wrong with a figure, and finds the smallest changes that free it. Each remedy holds the text of its figure
 * file.
 * @returns null when it was stopped before anything was tried
 * @throws InputError for a figure that can't be used, or a name that nothing bears; RangeError for an option beyond its bounds
 * @example
 * const tuned = await tune(read('examples/stuck-drummer.yaml'), { trials: 60 });
 * tuned?.remedies.map(({ text }) => text);
 */
export async function tune(
  source: FigureSource,
  {
    hold = [],
    prices = new Map(),
    keepGlued = false,
    mostCut,
    trials = TRIALS,
    workers = availableParallelism(),
    signal = new AbortController().signal,
  }: TuneRunOptions = {},
): Promise<Tuned | null> {
  whole(trials, 'trials', 1, MOST_SAMPLES);
  whole(workers, 'workers', 1, MOST_WORKERS);
  const tuning = new Tuning(source, compiled(source), { hold, prices, keepGlued, mostCut });
  const pool = figurePool(tuning.opened.source, workers);
  try {
    return await runTuning(tuning, { pool, trials, stop: signal });
  } finally {
    await pool.close();
  }
}

export interface CompareRunOptions {
  /** How many dummies to score at most, for each figure and seed; 400 if not given. */
  readonly samples?: number;
  /** Five to ten; 1 to 5 if not given. */
  readonly seeds?: readonly number[];
  readonly workers?: number;
  readonly signal?: AbortSignal;
}

/**
 * Weighs figures that want the same against one another: which wins at what, and by how much.
 * @returns null when it was stopped
 * @throws InputError when their wants differ; RangeError for an option beyond its bounds, such as fewer than
 *   five seeds, of which nothing can be told, or more than ten
 * @example
 * const figures = ['symmetric', 'asymmetric'].map((name) => read(`examples/variants/${name}.yaml`));
 * const comparison = await compare(figures, { samples: 20 });
 */
export async function compare(
  sources: readonly FigureSource[],
  {
    samples = COMPARE_SAMPLES,
    seeds = [1, 2, 3, 4, 5],
    workers = availableParallelism(),
    signal = new AbortController().signal,
  }: CompareRunOptions = {},
): Promise<Comparison | null> {
  whole(sources.length, 'figures', 2, MOST_VARIANTS);
  if (seeds.length < LEAST_SEEDS)
    throw new RangeError(`${seeds.length} seeds, where fewer than ${LEAST_SEEDS} can never be sure`);
  if (seeds.length > MOST_SEEDS)
    throw new RangeError(`${seeds.length} seeds, where at most ${MOST_SEEDS} can be weighed exactly`);
  for (const seed of seeds) whole(seed, 'seed', 0, MOST_SEED);
  whole(samples, 'samples', 1, MOST_COMPARE_SAMPLES);
  whole(workers, 'workers', 1, MOST_WORKERS);
  const log = new ScoreLog(null);
  return runComparison(variantsOfFiles(sources.map(figureGiven)), {
    samples,
    seeds,
    workers,
    stop: signal,
    log,
  });
}

/**
 * Unfolds one dummy to sheets at true scale, with its art: PDF, SVG and DXF, and the guide to putting it together. Writes
 * no file.
 * @throws CannotBuild for a dummy that is no card; SheetError where a piece does not fit the paper
 * @example
 * const { files, warnings } = await sheets(figure, { high: 18 }, { paper: 'A3' });
 */
export async function sheets(
  source: FigureSource,
  dims: Dims = {},
  options: Omit<SheetOptions, 'figure' | 'cardOf'> = {},
): Promise<MadeSheets> {
  const figure = compiled(source);
  const assembly = figure.build(figure.vectorFrom(settingsOf(dims)));
  const { art, notes } = readPanelArt(source, figure.art);
  const made = await makeSheets(assembly, {
    art,
    faceOf: (piece) => figure.faces.get(piece) ?? 'front',
    ...options,
    figure: figure.name,
    cardOf: (piece) => figure.card.of(piece),
  });
  return { ...made, warnings: [...notes, ...made.warnings] };
}

/** Who writes without types is told at the door what was meant, not somewhere inside. */
function textGiven(given: string, what: string): string {
  if (typeof given === 'string') return given;
  throw new TypeError(`found ${typeof given === 'object' ? 'an object' : String(given)}; give ${what}`);
}

const compiled = (source: FigureSource): Figure => compileFigure(figureGiven(source));

function figureGiven(source: FigureSource): FigureSource {
  const { file, text, marks } = source ?? {};
  if (typeof file === 'string' && typeof text === 'string' && typeof marks === 'object' && marks !== null)
    return source;
  throw new TypeError("found no figure; give what 'read' or 'parse' have made");
}

const settingsOf = (dims: Dims): Map<string, string> =>
  new Map(Object.entries(dims ?? {}).map(([name, value]) => [name, String(value)]));
