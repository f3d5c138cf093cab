import { counted } from '../../text/phrases.js';
import type { StudyReport } from '../study-report.js';
import { withUnit } from './numbers.js';

type Studied = Pick<StudyReport, 'table' | 'layout'>;

/** How the page of a candidate turns; empty where that is not known. @example 'page stiff, 7.2 N' */
export function pageInWords({ table, layout }: Studied, candidate: number): string {
  const numbers = table.numbers(candidate);
  const grade = layout.grade(numbers);
  if (grade === null) return '';
  const force = layout.force(numbers);
  return `page ${grade}${Number.isNaN(force) ? '' : `, ${withUnit(force, 'N')}`}`;
}

/** How many of those that work are stiff; or that nobody knows, in a study from before that was kept. */
export function gradesInWords({ table, layout }: Studied): string[] {
  const working = table.where((candidate) => table.outcome(candidate) === 'works');
  const grades = working.map((candidate) => layout.grade(table.numbers(candidate)));
  const stiff = grades.filter((grade) => grade === 'stiff').length;
  const unknown = grades.filter((grade) => grade === null).length;
  return [
    ...(stiff === 0
      ? []
      : [`Of those that work, the page of ${counted(stiff, 'dummy', 'dummies')} is stiff.`]),
    ...(unknown === 0
      ? []
      : [`How hard the page turns is not known of ${unknown}: they were scored before it was kept.`]),
  ];
}
