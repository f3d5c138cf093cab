import { fileName } from '../file-name.js';
import type { StudyReport } from '../study-report.js';
import { type BestCharts, bestCharts } from './best-charts.js';
import { dummyLines } from './dummy-lines.js';
import { effectMap } from './effect-map.js';
import { type ScoreCharts, scoreCharts } from './score-charts.js';
import { turnChart } from './turn-chart.js';

/** All charts of a study about its dims and its best dummies, as SVG: each is drawn once, for the report and as a file. */
export interface StudyCharts {
  /** Which dim drives which score; null where no index was measured. */
  readonly map: string | null;
  readonly scores: readonly ScoreCharts[];
  /** Every dummy across dims and wants. */
  readonly lines: string;
  readonly best: BestCharts;
  /** How hard the page of the best is to turn. */
  readonly turn: string;
}

export function studyCharts(report: StudyReport): StudyCharts {
  const { sensitivity, insight } = report;
  const driven = new Set(sensitivity.filter(({ total }) => total !== null).map(({ score }) => score));
  const rows = sensitivity.filter(({ score }) => driven.has(score));
  return {
    map: rows.length === 0 ? null : effectMap(rows, insight?.global.note ?? ''),
    scores: scoreCharts(report),
    lines: dummyLines(report),
    best: bestCharts(report),
    turn: turnChart(report.turned),
  };
}

const CHART_FILE =
  /^(?:effects-of-all-dims|all-dummies|(?:effects-on|trends-of|responses-of|best-[a-z]+)[a-z0-9-]*)\.svg(?:\.part)?$/;

/** Whether a file may be one of `chartFiles`, of this study or another. */
export const isChartFile = (name: string): boolean => CHART_FILE.test(name);

/** The charts as files, with names that are safe on any system. */
export function chartFiles({ map, scores, lines, best, turn }: StudyCharts): { name: string; svg: string }[] {
  const taken = new Set<string>();
  const all: (readonly [what: string, of: string, svg: string | null])[] = [
    ['effects-of-all-dims', '', map],
    ['all-dummies', '', lines],
    ...scores.flatMap(({ score, effects, trends, responses }) => [
      ['effects-on', score.name, effects] as const,
      ['trends-of', score.name, trends] as const,
      ['responses-of', score.name, responses] as const,
    ]),
    ['best-force', '', turn],
    ['best-robustness', '', best.robustness],
    ['best-failures', '', best.failures],
    ['best-causes', '', best.causes],
    ['best-safe-ranges', '', best.safe],
    ...best.nudges.map(({ score, svg }) => ['best-nudges-of', score, svg] as const),
  ];
  return all.flatMap(([what, of, svg]) =>
    svg === null ? [] : [{ name: fileName(what, of, 'svg', taken), svg }],
  );
}
