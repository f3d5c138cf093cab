import type { StudyReport } from '../study-report.js';
import { pageInWords } from './grade-words.js';
import { decimal, withUnit } from './numbers.js';

/** What a candidate reaches: its desirability, its wants, and how its page turns. */
export function achieved(
  { table, layout }: Pick<StudyReport, 'table' | 'layout'>,
  candidate: number,
): string {
  const numbers = table.numbers(candidate);
  const wants = layout.wants.map(({ name, unit }, want) => {
    const value = layout.wantValue(numbers, want);
    return `${name} ${Number.isNaN(value) ? 'not computed' : withUnit(value, unit)}`;
  });
  const worth = `desirability ${decimal(layout.desirability(numbers), 2)}`;
  return [worth, ...wants, pageInWords({ table, layout }, candidate)]
    .filter((each) => each !== '')
    .join(', ');
}
