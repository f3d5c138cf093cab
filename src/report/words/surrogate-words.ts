import { type CheckedNudge, FAINT, type Verdict } from '../../insight/local/nudge-check.js';
import type { HeldOutError } from '../../search/held-out.js';
import { decimal, withUnit } from './numbers.js';

/** How well a surrogate does on one score. @example '93 % of the spread (91 % for certain), off by 1.2 mm' */
function heldOutInWords({ explained, atLeast, rms }: HeldOutError, unit: string): string {
  const percent = (share: number) => `${decimal(100 * Math.max(0, share), 0)} %`;
  return `${percent(explained)} of the spread (${percent(atLeast)} for certain), off by ${withUnit(rms, unit)}`;
}

/** What is said of indices that a surrogate has given. */
export function bySurrogate(error: HeldOutError | null, unit: string): string {
  if (error === null) return '';
  return `From a surrogate, not from scoring: on ${error.rows.toLocaleString('en')} dummies that it had not learnt from, it explains ${heldOutInWords(error, unit)} as a root mean square. The intervals allow for what it leaves unexplained.`;
}

/** The mark beside a nudge; empty where there is nothing to say. */
export function nudgeMark({ verdict }: Pick<CheckedNudge, 'verdict'>): string {
  if (verdict === 'corner') return ' (corner)';
  return verdict === 'differs' ? ' (?)' : '';
}

/** What the marks mean. */
export const MARKS =
  '(corner): the slopes below and above differ. (?): the gradient of a surrogate differs in sign or more than threefold: it knows little here, or the score bends just beyond.';

/**
 * How many nudges of a score a surrogate bears out, of those that are worth telling, and what became of the others.
 * @returns empty where there was none to check
 */
export function checkInWords(
  nudges: readonly CheckedNudge[],
  error: HeldOutError | null | undefined,
  unit: string,
): string {
  const most = Math.max(...nudges.map(({ change }) => Math.abs(change ?? 0)));
  const told = nudges.filter(({ change }) => change !== null && Math.abs(change) > FAINT * most);
  const count = (asked: Verdict | null) => told.filter(({ verdict }) => verdict === asked).length;
  const [agree, differ, corner] = [count('agrees'), count('differs'), count('corner')];
  if (agree + differ === 0) return '';
  const how = error == null ? '' : `, which explains ${heldOutInWords(error, unit)}`;
  const others = [
    differ > 0 ? `${differ} it does not` : '',
    corner > 0 ? `${corner} ${corner === 1 ? 'is a corner' : 'are corners'}, which no gradient fits` : '',
    told.length > agree + differ + corner ? `of ${told.length - agree - differ - corner} it is not sure` : '',
  ].filter((part) => part !== '');
  return `Checked against the gradient of a surrogate${how}: it bears out ${agree} of the ${told.length} larger ones${others.map((part) => `; ${part}`).join('')}.`;
}
