import { isTrend } from '../../insight/sensitivity/rank-correlation.js';
import { responseCurve, shareCurve } from '../../insight/sensitivity/response.js';
import type { SensitivityRow } from '../../insight/sensitivity/sensitivity.js';
import type { StudyDim } from '../../insight/study-sensitivity.js';
import { type Score, scoresOf, WORKS } from '../../study/scores.js';
import type { StudyReport } from '../study-report.js';
import { unitSign } from '../words/numbers.js';
import { bySurrogate } from '../words/surrogate-words.js';
import { framed } from './frame.js';
import { intervalBars } from './interval-bars.js';
import { responseCurvesChart } from './response-curves.js';
import { threeDigits } from './text.js';
import { totalEffectsChart } from './total-effects.js';

/** The charts of one score: what drives it, which way, and how it answers to each dim. */
export interface ScoreCharts {
  readonly score: Score;
  /** What drives it; null where no index was measured. */
  readonly effects: string | null;
  /** Its rank correlations with the dims; null where there are none. */
  readonly trends: string | null;
  /** How it answers to each dim; null where nothing moves it. */
  readonly responses: string | null;
  /** Why there are no effects, or none of these. */
  readonly reason: string;
}

/** The charts of each score, as SVG. */
export function scoreCharts(report: StudyReport): ScoreCharts[] {
  const { plain, sensitivity, layout, dims, insight } = report;
  const note = `From ${plain.size.toLocaleString('en')} dummies spread evenly through the ranges.`;
  return scoresOf(layout).map((score, place): ScoreCharts => {
    const rows = sensitivity.filter((row) => row.score === score.name);
    const measured = rows.find(({ total }) => total !== null);
    const how =
      measured?.from === 'surrogate' ? bySurrogate(measured.heldOut, score.unit) : insight?.global.note;
    const effects = measured ? totalEffectsChart(score.name, rows, how ?? '') : null;
    const reason = measured ? '' : (rows[0]?.reason ?? '');
    if (rows.every((row) => row.rankCorrelation === null))
      return { score, effects, trends: null, responses: null, reason };
    return {
      score,
      effects,
      trends: rankChart(inWords(score), rows, dims, plain.size, note),
      responses: responses(score, plain.scores[place], report, note),
      reason,
    };
  });
}

/** Rank correlations of one score with each dim, the strongest first. @param dummies of how many */
function rankChart(
  score: string,
  rows: readonly SensitivityRow[],
  dims: readonly StudyDim[],
  dummies: number,
  note: string,
): string {
  const strength = (row: SensitivityRow) => Math.abs(row.rankCorrelation ?? -1);
  const sorted = [...rows].sort((a, b) => strength(b) - strength(a));
  const [first] = sorted;
  const strongest = first.rankCorrelation ?? 0;
  const known = rows.filter(({ rankCorrelation }) => rankCorrelation !== null).length;
  const way = strongest < 0 ? 'falls' : 'rises';
  const bars = sorted.map((row) => ({
    name: directed(row.dim, dims),
    value: row.rankCorrelation,
    low: null,
    high: null,
    reason: row.reason,
    tip: row.rankCorrelation === null ? row.reason : threeDigits(row.rankCorrelation),
  }));
  const caption = [
    isTrend(strongest, dummies, known)
      ? `Read the longest bar first: ${score} ${way} most steadily with ${directed(first.dim, dims)}.`
      : 'No dim moves it steadily: none by more than chance would.',
    '1: the score only ever rises with the dim; −1: it only falls; near 0: no steady trend, though the dim may still matter (see the curves).',
    note,
  ];
  return framed({
    title: `Which way each dim moves ${score}`,
    description: bars.map(({ name, tip }) => `${name}: ${tip}.`).join(' '),
    caption,
    panels: [intervalBars(bars, 'rank correlation', threeDigits)],
  });
}

/** 'works' is a yes or no: what goes up and down is the share. */
function inWords({ name }: Score): string {
  return name === WORKS.name ? 'the share that works' : name;
}

/** A dim's name; of a choice between two, also from which option to which. */
function directed(name: string, dims: readonly StudyDim[]): string {
  const options = dims.find((dim) => dim.name === name)?.options;
  return options?.length === 2 ? `${name} (${options.join(' → ')})` : name;
}

function responses(score: Score, values: Float64Array, { dims, plain }: StudyReport, note: string): string {
  const isShare = score.name === WORKS.name;
  const panels = dims.map(({ name, unit, options }, dim) => ({
    dim: name,
    unit: unitSign(unit),
    options: options?.map(String),
    response: isShare ? shareCurve(plain.dims[dim], values) : responseCurve(plain.dims[dim], values),
  }));
  return responseCurvesChart(
    inWords(score),
    unitSign(score.unit),
    isShare ? 'share' : 'quantiles',
    panels,
    note,
  );
}
