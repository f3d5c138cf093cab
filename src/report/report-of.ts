import type { Figure } from '../figure/figure.js';
import type { FigureSource } from '../figure/text/source.js';
import type { Goal } from '../figure/wants.js';
import type { StudyInsight } from '../insight/study-insight.js';
import { plainSample, type StudyDim, sensitivityOf } from '../insight/study-sensitivity.js';
import { turningOf } from '../score/force/turning.js';
import { Scorer } from '../score/scorer.js';
import type { HeldOut } from '../search/held-out.js';
import { distinct } from '../search/niche.js';
import { Space } from '../search/variables.js';
import type { StudySettings } from '../study/begin.js';
import { variablesOf } from '../study/figure-variables.js';
import { frontSize, rankedByHand, rankedStudy } from '../study/ranking.js';
import type { Layout } from '../study/row.js';
import type { StudyTable } from '../study/table.js';
import { counted } from '../text/phrases.js';
import type { StudyReport } from './study-report.js';
import { whyUnbuilt } from './why-unbuilt.js';
import { damageInWords, SCORED_BEFORE } from './words/damage.js';
import { insightSummary } from './words/insight-summary.js';
import { stagesInWords, surrogateInWords } from './words/stages.js';
import { standingInWords, type UnderWay } from './words/standing.js';
import { summaryOf } from './words/summary.js';

/** A study that has been run, to its end or not. */
export interface Studied {
  source: FigureSource;
  figure: Figure;
  layout: Layout;
  settings: StudySettings;
  table: StudyTable;
  /** False when it was interrupted, or is under way. */
  finished: boolean;
  /** What it is busy with, where it goes on: all else is not known yet. */
  underWay?: UnderWay;
  /** How robust the best are, where that is all that is measured yet. */
  robust?: StudyInsight['robust'];
  /** null when they are lost. */
  timings: Timings | null;
  /** How well the surrogate did on candidates it had not learnt from, and on what it computed; none without one. */
  surrogate?: { why: string; heldOut: HeldOut | null } | null;
  /** What was measured once all was scored; null where it was not. */
  insight?: StudyInsight | null;
  /** In what way it is not the study that was written, where it is read again: see `finishedIn`. */
  damage?: string | null;
  /** Whether an earlier dummyrun has scored it, or another build of this one. */
  earlier?: boolean;
}

export interface Timings {
  startedAt: string;
  seconds: number;
  workers: number;
  scoredInThisRun: number;
}

/** The first so many of those that are spread evenly lie as evenly as all, and more would draw the same curves. */
const MOST_DRAWN = 16_384;

/** Ranks what was scored, and says what follows from it. */
export function reportOf(studied: Studied): StudyReport {
  const { figure, layout, table, insight = null, underWay = null } = studied;
  const robust = insight?.robust ?? studied.robust ?? [];
  const dims = studyDims(figure);
  const ranking = rankedByHand(
    rankedStudy(table, layout),
    (candidate) => layout.desirability(table.numbers(candidate)),
    robust,
  );
  const spread = table.spread();
  const plain = plainSample(table, spread.slice(0, MOST_DRAWN), layout, insight?.plain);
  const sensitivity = sensitivityOf(plain, dims, layout, insight);
  const facts = {
    layout,
    dims,
    better: figure.wants.map(betterOf),
    table,
    ranking,
    different: differentOf(figure, table, ranking),
    spread,
    hindrances: whyUnbuilt(figure, table, spread),
    plain,
    sensitivity,
    insight,
    underWay,
    robust,
    name: figure.name,
    turned: {
      name: `dummy ${ranking[0] + 1}`,
      turning: turningOf(figure, table.vector(ranking[0])),
    },
  };
  const works = table.outcome(ranking[0]) === 'works';
  const nearest = works ? null : new Scorer(figure).score(table.vector(ranking[0]));
  const summary = summaryOf(facts, nearest, figure.wants);
  if (studied.earlier) summary.splice(1, 0, SCORED_BEFORE);
  if (studied.damage) summary.unshift(damageInWords(studied.damage));
  if (!studied.finished)
    summary.unshift(standingInWords(table.size, studied.settings.samples, underWay, robust.length > 0));
  summary.push(...insightSummary(facts));
  summary.push(...stagesInWords(table, layout, frontSize(table, layout)));
  if (studied.surrogate) summary.push(surrogateInWords(studied.surrogate, layout));
  return { ...facts, summary, facts: conditions(studied) };
}

/** So many designs of their own are listed. */
const DIFFERENT = 5;
/** Those ranked lower are not looked through for them. */
const LOOKED_THROUGH = 2000;

function differentOf(figure: Figure, table: StudyTable, ranking: readonly number[]): number[] {
  const working: number[] = [];
  for (let place = 0; place < ranking.length && working.length < LOOKED_THROUGH; place++)
    if (table.outcome(ranking[place]) === 'works') working.push(ranking[place]);
  const vectors = working.map((candidate) => table.vector(candidate));
  const places = distinct(new Space(variablesOf(figure)), vectors, DIFFERENT);
  return places.sort((a, b) => a - b).map((place) => working[place]);
}

/** The free dims of a figure, as tables and charts need them. */
export function studyDims(figure: Figure): StudyDim[] {
  return figure.free.map((dim) => ({
    name: dim.name,
    unit: dim.unit,
    options: dim.kind === 'choice' ? dim.options : null,
  }));
}

/** Whether more of a want's value is better or less; null where it has a target. */
export function betterOf({ least, most, target }: Goal): 'more' | 'less' | null {
  if (target !== undefined || (least !== undefined && most !== undefined)) return null;
  return least !== undefined ? 'more' : 'less';
}

function conditions({ source, settings, table, timings, insight = null }: Studied): [string, string][] {
  const time: [string, string][] =
    timings === null
      ? []
      : [['time', `${timings.seconds.toFixed(1)} s with ${counted(timings.workers, 'worker')}`]];
  const more: [string, string][] =
    insight === null
      ? []
      : [
          [
            'scored more',
            `${insight.runs.toLocaleString('en')}, for effects, robustness, safe ranges and nudges`,
          ],
        ];
  return [
    ['figure file', source.file],
    ['seed', String(settings.seed)],
    [
      'scored',
      settings.samples === null
        ? table.size.toLocaleString('en')
        : `${table.size.toLocaleString('en')} of ${settings.samples.toLocaleString('en')}`,
    ],
    ['search', settings.search],
    ...more,
    ...time,
    ['made by', `dummyrun ${settings.version}`],
  ];
}
