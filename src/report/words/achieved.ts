import type { StudyReport } from '../study-report.js';
import { decimal, withUnit } from './words.js';

/** What a candidate reaches: its desirability and its wants. */
export function achieved(
  { table, layout }: Pick<StudyReport, 'table' | 'layout'>,
  candidate: number,
): string {
  const figures = table.figures(candidate);
  const wants = layout.wants.map(({ name, unit }, want) => {
    const value = layout.wantValue(figures, want);
    return `${name} ${Number.isNaN(value) ? 'not computed' : withUnit(value, unit)}`;
  });
  return [`desirability ${decimal(layout.desirability(figures), 2)}`, ...wants].join(', ');
}
