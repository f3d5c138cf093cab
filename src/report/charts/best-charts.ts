import type { HandInsight } from '../../insight/figure-insight.js';
import type { FailureCause } from '../../insight/hand/failure-causes.js';
import { WORKS, wantScoresOf } from '../../study/scores.js';
import type { StudyReport } from '../study-report.js';
import { handInWords } from '../words/insight-words.js';
import { unitSign } from '../words/numbers.js';
import { checkInWords, MARKS, nudgeMark } from '../words/surrogate-words.js';
import { failureCausesChart } from './failure-causes.js';
import { failureKindsChart } from './failure-kinds.js';
import { framed } from './frame.js';
import { intervalBars } from './interval-bars.js';
import { nudgeChart } from './nudge-chart.js';
import { safeRangesChart } from './safe-ranges.js';

import { percent } from './text.js';

const MOST_CAUSES = 12;
const FEWEST_CAUSES = 3;

/** The charts of the best candidates when they are cut by hand, and of the very best one's dims. As SVG. */
export interface BestCharts {
  /** How robust the best are, for each that was cut by hand; null where none was. */
  readonly robustness: string | null;
  /** What fails first, which cut is to blame, how far each dim may go; null where the best was not looked into. */
  readonly failures: string | null;
  readonly causes: string | null;
  readonly safe: string | null;
  /** What a nudge of each dim does to desirability and to each want. */
  readonly nudges: readonly { score: string; svg: string }[];
}

export function bestCharts(report: StudyReport): BestCharts {
  const { insight, table, layout } = report;
  const none = { robustness: null, failures: null, causes: null, safe: null, nudges: [] };
  if (insight === null) return none;
  const { robust, best, free, hand } = insight;
  const robustness = robust.length === 0 ? null : robustnessChart(report);
  if (best === null) return { ...none, robustness };
  const { tolerance, causes } = best.insight;
  const [{ safe, nudges }] = insight.local;
  const heldOut = insight.surrogate?.heldOut;
  const vector = table.vector(best.candidate);
  const which = `Of dummy ${best.candidate + 1}, with ${handInWords(hand)}.`;
  const scores = wantScoresOf(layout);
  const units = free.map(({ unit }) => unitSign(unit));
  return {
    robustness,
    failures: failureKindsChart(
      'What fails first when it is cut by hand',
      tolerance.failures,
      tolerance.works.of,
      which,
    ),
    causes: failureCausesChart({ ...causes, causes: withParts(best.insight) }, which),
    safe: safeRangesChart(
      free.map((dim, i) => ({
        dim: dim.name,
        unit: units[i],
        bounds: dim.kind === 'real' ? { min: dim.min, max: dim.max } : null,
        value: vector[i],
        safe: safe[i],
      })),
      'Walked in steps of 1 mm or 1° at most, the ends to 0.05 mm or 0.1°.',
    ),
    nudges: scores.flatMap(({ name, unit }, score) => {
      if (name === WORKS.name) return [];
      const rows = free.map((dim, i) => ({
        dim: dim.name,
        unit: units[i],
        nudge: nudges[i][score],
        mark: nudgeMark(nudges[i][score]),
      }));
      const checked = rows.map(({ nudge }) => nudge);
      const marks = rows.some(({ mark }) => mark !== '') ? [MARKS] : [];
      const note = [checkInWords(checked, heldOut?.[score], unit), ...marks].join(' ');
      return [{ score: name, svg: nudgeChart(name, unitSign(unit), rows, note) }];
    }),
  };
}

/** What was cut again exactly, whole parts among it, that which would have saved most first. */
function withParts({ causes, parts }: HandInsight): FailureCause[] {
  const whole = parts.map(({ part, cured }) => ({
    name: `${part}, all of it`,
    explains: 0,
    chance: 1,
    cured,
    reason: null,
  }));
  const [tried, rest] = [true, false].map((isTried) =>
    causes.causes.filter(({ cured }) => (cured !== null) === isTried),
  );
  const saved = ({ cured }: FailureCause) => cured?.share ?? 0;
  const sorted = [...whole, ...tried].sort((a, b) => saved(b) - saved(a));
  // Those that would have saved none are only drawn to show that there is none that would.
  const worst = sorted.filter((cause, place) => saved(cause) > 0 || place < FEWEST_CAUSES);
  return [...worst.slice(0, MOST_CAUSES), ...rest];
}

/** The share of hand-cut dummies that work, for each of the best, in the order of the ranking. */
function robustnessChart({ insight, ranking, layout, table }: StudyReport): string {
  const { robust, hand } = insight ?? { robust: [], hand: { mm: 0, degrees: 0 } };
  const shares = new Map(robust.map(({ candidate, works }) => [candidate, works]));
  const bars = ranking.flatMap((candidate) => {
    const works = shares.get(candidate);
    if (works === undefined) return [];
    const { share, low, high } = works;
    const worth = layout.desirability(table.numbers(candidate));
    const name = `dummy ${candidate + 1}, desirability ${worth.toFixed(2)}`;
    const tip = `${percent(share)} (95 % interval ${percent(low)} to ${percent(high)})`;
    return [{ name, value: share, low, high, reason: '', tip }];
  });
  return framed({
    title: 'How many work when they are cut by hand',
    description: bars.map(({ name, tip }) => `${name}: ${tip}.`).join(' '),
    caption: [
      'The topmost is the best: these are ranked by the desirability to be expected of their hand-cut dummies, failures counted 0.',
      `Line: 95 % interval. ${robust[0]?.works.of ?? 0} dummies of each, all with the same ${handInWords(hand)}.`,
    ],
    panels: [
      intervalBars(bars, 'hand-cut dummies that work (%)', (share) => String(Math.round(100 * share))),
    ],
  });
}
