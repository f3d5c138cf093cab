import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import type { Comparison } from '../compare/compare.js';
import { runComparison } from '../compare/run.js';
import {
  MOST_VARIANTS,
  mustWantTheSame,
  type Variant,
  variantsOfChoice,
  variantsOfFiles,
} from '../compare/variants.js';
import { scoringHash, version } from '../disk/root.js';
import { readFigure } from '../figure/read.js';
import { InputError } from '../figure/text/input-error.js';
import { tableInWords, verdictInWords } from '../report/words/compare-words.js';
import { figureHash } from '../study/figure-hash.js';
import { inFolder, type StudyFolder } from '../study/folder.js';
import { keptRun } from '../study/kept-run.js';
import { ScoreLog } from '../study/score-log.js';
import { counted } from '../text/phrases.js';
import { COMPARED, writeComparison } from './compare-files.js';
import { FINE, INTERRUPTED } from './exit-codes.js';
import { openFile } from './open-file.js';
import { say, sayJson, tell } from './print.js';
import { duration, Progress } from './progress.js';
import { resultsFolder } from './results-folder.js';
import { stopOnSignal } from './stop-on-signal.js';
import { tellIfNew } from './tell-if-new.js';

export interface CompareCommandOptions {
  each?: string;
  samples: number;
  seed: number;
  seeds: number;
  workers?: number;
  out?: string;
  resume: boolean;
  json: boolean;
  open: boolean;
}

/**
 * Weighs variants of one idea against one another.
 * @returns the exit code
 * @throws InputError for figure files that can't be used or whose wants differ, StudyError for a folder that can't
 */
export async function compare(paths: readonly string[], options: CompareCommandOptions): Promise<number> {
  const variants = variantsOf(paths, options.each);
  mustWantTheSame(variants);
  const out = options.out ?? join(resultsFolder(paths[0]), 'compare');
  return inFolder(out, (folder) => compareIn(folder, variants, options));
}

function variantsOf(paths: readonly string[], each: string | undefined): Variant[] {
  if (each !== undefined) {
    if (paths.length > 1)
      throw new InputError({
        file: '--each',
        found: `it with ${paths.length} figure files`,
        remedy: 'give one figure file, whose choice it names',
      });
    return variantsOfChoice(readFigure(paths[0]), each);
  }
  if (paths.length < 2 || paths.length > MOST_VARIANTS)
    throw new InputError({
      file: 'compare',
      found: counted(paths.length, 'figure file'),
      remedy: `give 2 to ${MOST_VARIANTS}, or one with --each and the name of a choice in it`,
    });
  return variantsOfFiles(paths.map(readFigure));
}

async function compareIn(
  folder: StudyFolder,
  variants: readonly Variant[],
  options: CompareCommandOptions,
): Promise<number> {
  const { samples, resume } = options;
  const seeds = Array.from({ length: options.seeds }, (_, i) => options.seed + i);
  const figures = variants.map(({ source }) => figureHash(source));
  const heading = {
    format: 'compare 1',
    figures,
    version: version(),
    scoring: scoringHash(),
    seeds,
    samples,
  };
  const { log, isOld } = keptRun(folder, heading, resume);
  tellIfNew(options, isOld);
  const workers = options.workers ?? availableParallelism();
  const stop = stopOnSignal('Ending: what was scored so far is kept.');
  const progress = new Progress(variants.length * seeds.length * samples);
  const before = log.size;
  const started = performance.now();
  let [scored, working] = [0, 0];
  let comparison: Comparison | null;
  try {
    comparison = await runComparison(variants, {
      samples,
      seeds,
      workers,
      stop,
      log: new ScoreLog(log),
      onScored(works) {
        scored++;
        if (works) working++;
        progress.update(scored, Math.max(0, scored - before), working);
      },
    });
  } finally {
    progress.stop();
    log.close();
  }
  if (comparison === null) {
    tell('Interrupted. To go on with it, give the same command with --resume.');
    return INTERRUPTED;
  }
  const json = await writeComparison(folder, comparison, [
    ...variants.map(({ name, source }): [string, string] => [name, source.file]),
    ['seeds', seeds.join(', ')],
    ['dummies', `${samples.toLocaleString('en')} at most for each variant and seed`],
    ['scored', scored.toLocaleString('en')],
    ['time', duration((performance.now() - started) / 1000)],
    ['made by', `dummyrun ${version()}`],
  ]);
  if (options.json) sayJson(json);
  else say(...inWords(comparison, folder));
  if (options.open) openFile(folder.file('compare.html'));
  folder.dropUnfinished();
  return FINE;
}

function inWords(comparison: Comparison, folder: StudyFolder): string[] {
  return [
    ...verdictInWords(comparison),
    '',
    ...tableInWords(comparison),
    '',
    'Files',
    ...COMPARED.map((name) => `  ${folder.file(name)}`),
  ];
}
