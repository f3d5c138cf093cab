import { existsSync, mkdirSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { explained } from '../disk/error.js';
import { writeWhole } from '../disk/files.js';
import { version } from '../disk/root.js';
import { compileFigure, type Figure } from '../figure/figure.js';
import { drawingsOf } from '../figure/read.js';
import { InputError, quoted } from '../figure/text/input-error.js';
import { type FigureSource, parseFigure } from '../figure/text/source.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { shutBook } from '../report/shut-book.js';
import { catchesInWords } from '../report/words/catch-words.js';
import { filledInWords } from '../report/words/filled-words.js';
import { scorecardAsJson } from '../report/words/scorecard-json.js';
import { scorecardInWords } from '../report/words/scorecard-words.js';
import { shutInWords } from '../report/words/shut-words.js';
import { trimsInWords } from '../report/words/trim-words.js';
import { warningsInWords } from '../report/words/warning-words.js';
import { findCatches, type NamedCatch } from '../score/catches.js';
import type { Scorecard } from '../score/scorecard.js';
import { Scorer } from '../score/scorer.js';
import { findTrims, type TrimOffers } from '../score/trims/trims.js';
import { findWarnings, type Warning } from '../score/warnings.js';
import { wayToFree } from './best-in-numbers.js';
import { type Choice, chosenDummy } from './chosen-dummy.js';
import { DOES_NOT_WORK, FINE } from './exit-codes.js';
import { openFile } from './open-file.js';
import { patience } from './patience.js';
import { say, sayJson, tell } from './print.js';
import { resultsFolder } from './results-folder.js';
import { mustNotStandAlone } from './stands-alone.js';
import { type ToleranceOptions, toleranceOf } from './tolerance.js';

export interface CheckOptions extends ToleranceOptions, Choice {
  json: boolean;
  poses?: string;
  /** Whether to cut it by hand, too. */
  tolerance: boolean;
  /** Whether to look for cuts that free what catches. */
  trim: boolean;
  /** With it: how much of a panel they may take, per cent. */
  mostCut?: number;
  /** Whether to write a page with the moving figure, and open it. */
  open: boolean;
}

/**
 * Scores one candidate: the figure as it starts, with dims set by hand; or a dummy of a study.
 * @returns the exit code: whether it works
 * @throws InputError for a figure file or a dim that can't be used
 */
export async function check(path: string, options: CheckOptions): Promise<number> {
  const { sigmaMm, sigmaDegrees } = options;
  if (!options.tolerance)
    mustNotStandAlone({ '--sigma-mm': sigmaMm, '--sigma-degrees': sigmaDegrees }, '--tolerance');
  if (!options.trim) mustNotStandAlone({ '--most-cut': options.mostCut }, '--trim');
  const { source, figure, vector, study } = await chosenDummy(path, options);
  for (const remark of study?.remarks ?? []) tell(remark);
  if (options.poses !== undefined) mustNotReplace(options.poses, source);
  const scorer = new Scorer(figure);
  const card = scorer.score(vector);
  if (options.poses !== undefined) writePoses(options.poses, scorer, vector);
  const found = await lookedInto(source, figure, vector, card, options);
  if (options.json) sayJson(asJson(card, found));
  else {
    // 'tune' frees the figure as it starts, not with what was set here.
    const next = card.works || study !== null || options.set.length > 0 ? [] : ['', ...wayToFree(path)];
    say(
      ...(study === null ? [] : [`Rank ${study.place}: ${study.name}.`]),
      ...inWords(figure, vector, card, found),
      ...next,
    );
  }
  if (options.open)
    await openPage(
      study === null ? resultsFolder(path) : path,
      source,
      figure,
      vector,
      card,
      found.catches,
      options.json,
    );
  return card.works ? FINE : DOES_NOT_WORK;
}

/** What is found of a dummy beside its scorecard; of one that can't be built next to nothing. */
interface Found {
  readonly catches: readonly NamedCatch[];
  readonly warnings: readonly Warning[];
  /** Null where it is not asked for. */
  readonly tolerance: { readonly words: readonly string[]; readonly json: object } | null;
  readonly trims: TrimOffers | null;
}

async function lookedInto(
  source: FigureSource,
  figure: Figure,
  vector: Float64Array,
  card: Scorecard,
  options: CheckOptions,
): Promise<Found> {
  if (card.cannotBuild !== null) return { catches: [], warnings: [], tolerance: null, trims: null };
  return {
    tolerance: options.tolerance ? await toleranceOf(source, figure, vector, card, options) : null,
    trims: options.trim
      ? findTrims(figure, vector, {
          most: options.mostCut,
          atWork: patience('looking for cuts that free what catches'),
        })
      : null,
    catches: card.clash.between === null ? [] : findCatches(figure, vector),
    warnings: findWarnings(figure, vector),
  };
}

/** Where nothing is found and no more is asked for, it is the scorecard alone: the same as in the file of poses. */
function asJson(card: Scorecard, { catches, warnings, tolerance, trims }: Found): object {
  return {
    ...scorecardAsJson(card),
    ...(catches.length > 0 && { catches }),
    ...(warnings.length > 0 && { warnings }),
    ...(tolerance && { tolerance: tolerance.json }),
    ...(trims && { trims }),
  };
}

function inWords(
  figure: Figure,
  vector: Float64Array,
  card: Scorecard,
  { catches, warnings, tolerance, trims }: Found,
): string[] {
  const built = card.cannotBuild === null;
  return [
    ...scorecardInWords(figure.name, card, figure.wants),
    ...catchesInWords(catches),
    ...(built ? filledInWords(figure.filled(vector)) : []),
    ...shutInWords(built ? shutBook(figure, vector) : null),
    ...warningsInWords(warnings),
    ...(trims === null ? [] : trimsInWords(trims)),
    ...(tolerance?.words ?? []),
  ];
}

/** Writes the page of one dummy into the folder of the figure's results, and opens it. */
async function openPage(
  out: string,
  source: FigureSource,
  figure: Figure,
  vector: Float64Array,
  card: Scorecard,
  catches: readonly NamedCatch[],
  quiet: boolean,
): Promise<void> {
  // Loaded when it is asked for: charts take a third of a second.
  const { checkPage } = await import('../report/pages/check-page.js');
  // Dims that are plain numbers are no dims of the page: set by hand, they are written into its figure.
  const isFree = vector.length === figure.free.length;
  const shown = isFree ? source : parseFigure(figure.toYaml(vector), source.file);
  const own = isFree ? figure : compileFigure(shown);
  const page = checkPage(shown, own, isFree ? vector : own.start, card, catches, [
    ['figure file', source.file],
    ['made by', `dummyrun ${version()}`],
  ]);
  const file = join(out, 'check.html');
  try {
    mkdirSync(out, { recursive: true });
    writeWhole(file, page);
  } catch (error) {
    throw explained(error, file, 'leave out --open');
  }
  if (!quiet) say('', file);
  openFile(file);
}

function writePoses(path: string, scorer: Scorer, vector: Float64Array): void {
  try {
    const poses = scorer.poses(vector);
    const scorecard = scorecardAsJson(poses.scorecard);
    writeFileSync(path, `${JSON.stringify({ ...poses, scorecard })}\n`);
  } catch (error) {
    if (!(error instanceof CannotBuild)) throw explained(error, path, 'give another file with --poses');
    tell(`No poses are written: what can't be built doesn't move.`);
  }
}

/** Makes sure that the file of poses has a folder to lie in, and takes the place of nothing that the figure is made of. */
function mustNotReplace(poses: string, source: FigureSource): void {
  const refuse = (found: string) =>
    new InputError({
      file: '--poses',
      found,
      remedy: "give another name, such as 'poses.json': that file is replaced",
    });
  if (!existsSync(dirname(poses)))
    throw new InputError({
      file: '--poses',
      found: `no folder ${quoted(dirname(poses))}`,
      remedy: 'give a file in a folder that is there',
    });
  if (isSameFile(poses, source.file)) throw refuse('the figure file itself');
  const drawing = drawingsOf(source).find((svg) => isSameFile(poses, join(dirname(source.file), svg)));
  if (drawing !== undefined) throw refuse(`${quoted(drawing)}, a drawing of the figure`);
}

function isSameFile(a: string, b: string): boolean {
  try {
    const [one, other] = [a, b].map((path) => statSync(path, { bigint: true, throwIfNoEntry: false }));
    return one !== undefined && one.ino === other?.ino && one.dev === other.dev;
  } catch {
    // What can't be looked at can't be written either, and that says why.
    return false;
  }
}
