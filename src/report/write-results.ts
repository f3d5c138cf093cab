import type { Figure } from '../figure/figure.js';
import type { Goal } from '../figure/wants.js';
import { Scorer } from '../score/scorer.js';
import { rank } from '../search/rank.js';
import { scoredOf } from '../search/study.js';
import type { StudySettings } from '../search/study-begin.js';
import { type StudyFolder, writeWhole } from '../search/study-folder.js';
import type { StudyLog } from '../search/study-log.js';
import { writeCandidates, writeSensitivity, writeStudy } from '../search/study-results.js';
import type { Layout } from '../search/study-row.js';
import { type StudyDim, sensitivityOf } from '../search/study-sensitivity.js';
import type { StudyTable } from '../search/study-table.js';
import { tally } from './failures.js';
import { reportPage } from './page.js';
import type { StudyReport } from './study-report.js';
import { summaryOf } from './summary.js';
import { counted } from './words.js';

export interface Studied {
  folder: StudyFolder;
  log: StudyLog;
  figure: Figure;
  layout: Layout;
  /** The figure file, as the maker named it. */
  file: string;
  settings: StudySettings;
  table: StudyTable;
  /** False when it was interrupted. */
  finished: boolean;
  timings: { startedAt: string; seconds: number; workers: number; scoredInThisRun: number };
}

/** Files that a study leaves in its folder, for a person to open in this order. */
export const RESULTS = [
  'report.html',
  'ranking.csv',
  'candidates.csv',
  'sensitivity.csv',
  'study.json',
] as const;

/**
 * Ranks what was scored and writes all results. Everything but the timings in `study.json`, and what the report says of
 * them, depends on the figure and the settings alone.
 */
export async function writeResults(studied: Studied): Promise<StudyReport> {
  const { folder, log, figure, layout, table } = studied;
  const dims = studyDims(figure);
  const scored = table
    .where(() => true)
    .map((candidate) => ({
      ...scoredOf(layout, table, candidate),
      works: table.outcome(candidate) === 'works',
      desirability: layout.desirability(table.figures(candidate)) || 0,
    }));
  const ranking = rank(scored);
  // Whatever its name, the first stage spreads its candidates evenly through the ranges.
  const spread = table.where((candidate) => table.stage(candidate) === table.stage(0));
  const sensitivity = sensitivityOf(table, spread, dims, layout);
  const facts = {
    layout,
    dims,
    better: figure.wants.map(betterOf),
    table,
    ranking,
    spread,
    sensitivity,
    name: figure.name,
  };
  const nearest = scored[ranking[0]].works ? null : new Scorer(figure).score(table.vector(ranking[0]));
  const summary = summaryOf(facts, nearest, figure.wants);
  if (!studied.finished) {
    summary.unshift(
      `Interrupted after ${table.size.toLocaleString('en')} of ${counted(studied.settings.samples, 'dummy', 'dummies')}.`,
    );
  }
  const report = { ...facts, summary, facts: conditions(studied) };

  await writeCandidates(folder, log, dims, layout, ranking);
  await writeSensitivity(folder, sensitivity);
  writeWhole(folder.file('report.html'), reportPage(report));
  writeStudy(folder, record(studied, report));
  return report;
}

/** The free dims of a figure, as tables and charts need them. */
export function studyDims(figure: Figure): StudyDim[] {
  return figure.free.map((dim) => ({
    name: dim.name,
    unit: dim.unit,
    options: dim.kind === 'choice' ? dim.options : null,
  }));
}

function betterOf({ least, most, target }: Goal): 'more' | 'less' | null {
  if (target !== undefined || (least !== undefined && most !== undefined)) return null;
  return least !== undefined ? 'more' : 'less';
}

function conditions({ file, settings, table, timings }: Studied): [string, string][] {
  return [
    ['figure file', file],
    ['seed', String(settings.seed)],
    ['scored', `${table.size.toLocaleString('en')} of ${settings.samples.toLocaleString('en')}`],
    ['time', `${timings.seconds.toFixed(1)} s with ${counted(timings.workers, 'worker')}`],
    ['made by', `dummyrun ${settings.version}`],
  ];
}

/** What `study.json` holds. */
function record({ figure, file, settings, table, finished, timings }: Studied, report: StudyReport): object {
  const counts = tally(table, report.layout, report.ranking);
  return {
    format: 'study 1',
    finished,
    figure: figure.name,
    file,
    sha256: settings.figure,
    seed: settings.seed,
    samples: settings.samples,
    versions: { dummyrun: settings.version, node: process.version },
    dims: figure.free,
    wants: report.layout.wants,
    limits: report.layout.limits.map(({ name, unit }) => ({ name, unit })),
    scored: table.size,
    works: counts.works,
    fails: counts.fails,
    notBuilt: counts.notBuilt,
    notScored: counts.notScored,
    best: report.ranking[0] + 1,
    timings,
  };
}
