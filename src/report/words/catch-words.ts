import type { NamedCatch } from '../../score/catches.js';
import { withUnit } from './numbers.js';
import { section } from './section.js';

/** Catches that are told one by one; as many more are only counted. */
const MOST = 30;

/** Every catch of a figure as the page closes; nothing where there is one at most, which is told with the score. */
export function catchesInWords(catches: readonly NamedCatch[]): string[] {
  if (catches.length < 2) return [];
  const rows = catches
    .slice(0, MOST)
    .map(({ between, depth, pageAngle, startsAt }) => [
      withUnit(startsAt, 'degrees'),
      between.join(' and '),
      `${withUnit(depth, 'mm')} deep at page angle ${withUnit(pageAngle, 'degrees')}`,
    ]);
  if (catches.length > MOST) rows.push(['', `and ${catches.length - MOST} more`, '']);
  return section(`All ${catches.length} catches, by where they begin as the page closes`, rows);
}
