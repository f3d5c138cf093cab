import { frontOfTwo, type Sided } from '../../search/front-of-two.js';
import { OUTCOMES } from '../../study/row.js';
import type { Column } from './columns.js';
import type { Study } from './study.js';

/**
 * The candidates that no other beats in both of two columns, from the least x on: of those that pass the filters the
 * ones that work, or all where none does. None where a column has no better side.
 */
export function frontOf(
  { shown, candidates }: Pick<Study, 'shown' | 'candidates'>,
  x: Column,
  y: Column,
): number[] {
  if (x.better === null || y.better === null) return [];
  const known = shown.value.filter((place) => !Number.isNaN(x.values[place] + y.values[place]));
  const working = known.filter((place) => OUTCOMES[candidates.outcome[place]] === 'works');
  const sided = ({ values, better }: Column): Sided => ({
    better: better === 'less' ? 'less' : 'more',
    value: (place) => values[place],
  });
  return frontOfTwo(working.length > 0 ? working : known, sided(x), sided(y));
}
