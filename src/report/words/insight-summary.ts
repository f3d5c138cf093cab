import type { SensitivityRow } from '../../insight/sensitivity/sensitivity.js';
import { LONG_ENOUGH, type StudyInsight } from '../../insight/study-insight.js';
import type { StudyTable } from '../../study/table.js';
import { counted, spoken } from '../../text/phrases.js';
import type { StudyReport } from '../study-report.js';
import { COMMAND } from './command.js';
import { handInWords, shareInWords } from './insight-words.js';
import { decimal } from './numbers.js';
import { bySurrogate } from './surrogate-words.js';

/** Dims named as drivers, if their total effect is worth it. */
const MOST_DRIVERS = 3;
const WORTH_NAMING = 0.1;

/** What was measured once all was scored, in sentences. */
export function insightSummary({
  insight,
  sensitivity,
  table,
}: Pick<StudyReport, 'insight' | 'sensitivity' | 'table'>): string[] {
  if (insight === null) return [];
  return [...drivers(sensitivity), ...robustness(insight, table), ...guilty(insight)];
}

/** The dims that desirability hangs on most. */
function drivers(sensitivity: readonly SensitivityRow[]): string[] {
  const rows = sensitivity
    .filter(({ score, total }) => score === 'desirability' && total !== null && total >= WORTH_NAMING)
    .sort((a, b) => (b.total ?? 0) - (a.total ?? 0))
    .slice(0, MOST_DRIVERS);
  if (rows.length === 0) {
    const reason = sensitivity.find(({ score, total }) => score === 'desirability' && total === null)?.reason;
    return reason ? [`Which dim desirability hangs on was not measured: ${reason.split(';')[0]}.`] : [];
  }
  const named = rows.map(({ dim, total }) => `${dim} (${decimal(total ?? 0, 2)})`);
  const [{ from, heldOut }] = rows;
  return [
    `Over the whole ranges desirability hangs most on ${spoken(named)}: in brackets, the share of its spread that stays if all other dims are fixed.`,
    ...(from === 'surrogate' ? [bySurrogate(heldOut, '')] : []),
  ];
}

function robustness({ robust, best, hand }: StudyInsight, table: StudyTable): string[] {
  if (best === null)
    return table.where((candidate) => table.outcome(candidate) === 'works').length === 0
      ? []
      : [
          `How exact it must be cut was not measured, since ${notDeserved(table.size)}: '${COMMAND} check --tolerance' tells it of one dummy.`,
        ];
  const found = robust.find(({ candidate }) => candidate === best.candidate);
  if (found === undefined) return [];
  const { works, sound } = found;
  const dummies = counted(works.of, 'dummy', 'dummies');
  const sentence =
    sound === undefined
      ? `Cut by hand (${handInWords(hand)}), ${shareInWords(works)} of ${dummies} of the best still work.`
      : `Cut by hand (${handInWords(hand)}), ${shareInWords(sound)} of ${dummies} of the best shut and open without a jam; ${shareInWords(works)} also do all that is wanted.`;
  return robust.length === 1
    ? [sentence]
    : [
        sentence,
        `The first ${robust.length} did best of those cut by hand for a first look, and are ranked by the desirability to be expected of such dummies.`,
      ];
}

/** What fails most when the best is cut by hand, and what to take care over. */
function guilty({ best }: StudyInsight): string[] {
  const failure = best?.insight.tolerance.failures[0]?.failure;
  if (best === null || failure === undefined) return [];
  const [part] = best.insight.parts;
  const care =
    part === undefined || part.cured.count === 0
      ? ''
      : ` Take most care over ${part.part}: had all of it been exact, ${shareInWords(part.cured)} of those that fail would have worked.`;
  return [`Most that fail then fail first at this: ${failure}.${care}`];
}

/** Why nothing was cut by hand in a study that came to its end. */
export function notDeserved(scored: number): string {
  return scored < LONG_ENOUGH
    ? `fewer than ${LONG_ENOUGH.toLocaleString('en')} dummies were scored`
    : 'no dummy works';
}
