import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { writeWhole } from '../disk/files.js';
import { scoringHash, version } from '../disk/root.js';
import { compileFigure, type Figure } from '../figure/figure.js';
import { readFigure } from '../figure/read.js';
import { InputError, quoted } from '../figure/text/input-error.js';
import type { FigureSource } from '../figure/text/source.js';
import { tunePage } from '../report/pages/tune-page.js';
import { tunedAsJson } from '../report/words/tune-json.js';
import { nearerInWords, tunedInWords } from '../report/words/tune-words.js';
import { figureHash } from '../study/figure-hash.js';
import { figurePool } from '../study/figure-pool.js';
import { inFolder, type StudyFolder } from '../study/folder.js';
import { keptRun } from '../study/kept-run.js';
import { ScoreLog } from '../study/score-log.js';
import { runTuning } from '../tune/run.js';
import { type Tuned, Tuning } from '../tune/tune.js';
import { DOES_NOT_WORK, FINE, INTERRUPTED } from './exit-codes.js';
import { say, sayJson, tell } from './print.js';
import { Progress } from './progress.js';
import { mustNotReplace, TUNED, writeRemedies } from './remedy-files.js';
import { resultsFolder } from './results-folder.js';
import { stopOnSignal } from './stop-on-signal.js';
import { tellIfNew } from './tell-if-new.js';

export interface TuneCommandOptions {
  hold: readonly string[];
  /** `name=number`, as typed. */
  price: readonly string[];
  keepGlued: boolean;
  mostCut?: number;
  trials: number;
  workers?: number;
  out?: string;
  resume: boolean;
  json: boolean;
}

/**
 * Says what is wrong with a figure and finds the smallest changes that free it.
 * @returns the exit code: whether it works, or was freed
 * @throws InputError for a figure file or an option that can't be used, StudyError for a folder that can't
 */
export async function tune(path: string, options: TuneCommandOptions): Promise<number> {
  const source = readFigure(path);
  const figure = compileFigure(source);
  const prices = pricesOf(options.price);
  const { hold, keepGlued, mostCut } = options;
  const tuning = new Tuning(source, figure, { hold, prices, keepGlued, mostCut });
  const out = options.out ?? join(resultsFolder(path), 'remedies');
  return inFolder(out, (folder) => {
    mustNotReplace(source, out);
    return tuneIn(folder, source, figure, tuning, options);
  });
}

async function tuneIn(
  folder: StudyFolder,
  source: FigureSource,
  figure: Figure,
  tuning: Tuning,
  options: TuneCommandOptions,
): Promise<number> {
  const { hold, price, keepGlued, mostCut, resume } = options;
  const heading = {
    format: 'tune 1',
    figure: figureHash(source),
    version: version(),
    scoring: scoringHash(),
    hold,
    price,
    keepGlued,
    mostCut,
  };
  const { log, isOld } = keptRun(folder, heading, resume);
  tellIfNew(options, isOld);
  const workers = options.workers ?? availableParallelism();
  const pool = figurePool(tuning.opened.source, workers);
  const stop = stopOnSignal('Ending: what was found so far is written.');
  const progress = new Progress(options.trials);
  const before = log.size;
  let working = 0;
  let tuned: Tuned | null;
  try {
    tuned = await runTuning(tuning, {
      pool,
      trials: options.trials,
      stop,
      log: new ScoreLog(log),
      onTried(tried, row) {
        if (row.outcome === 'works') working++;
        progress.update(tried, Math.max(0, tried - before), working);
      },
      onNearer(changes, gone) {
        progress.note(nearerInWords(changes, gone));
      },
    });
  } finally {
    progress.stop();
    await pool.close();
    log.close();
  }
  if (tuned === null) {
    tell('Interrupted before anything was tried.');
    return INTERRUPTED;
  }
  const written = await writeRemedies(folder.path, source, tuned);
  const files = written.map(({ file }) => file);
  writeWhole(folder.file('remedies.html'), tunePage(figure, tuned, written));
  const json = tunedAsJson(figure.name, source.file, tuned, files);
  writeWhole(folder.file(TUNED), `${JSON.stringify(json, null, 2)}\n`);
  if (options.json) sayJson(json);
  else say(...tunedInWords(figure.name, tuned, figure.wants, files));
  if (stop.aborted) {
    tell('To go on with it, give the same command with --resume.');
    return INTERRUPTED;
  }
  folder.dropUnfinished();
  return tuned.card.works || tuned.remedies.length > 0 ? FINE : DOES_NOT_WORK;
}

function pricesOf(written: readonly string[]): Map<string, number> {
  return new Map(
    written.map((text) => {
      const [, name, number] = /^([^=]+)=\s*(\d+(?:\.\d+)?)\s*$/.exec(text) ?? [];
      const price = Number(number);
      if (name === undefined || !(price > 0 && price <= 1000))
        throw new InputError({
          file: '--price',
          found: quoted(text),
          remedy: "write name=number, above 0 and at most 1000, such as 'mast=3'",
        });
      return [name.trim(), price];
    }),
  );
}
