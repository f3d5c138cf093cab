import type { Column } from './columns.js';
import { OUTCOMES } from './data.js';
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
  return unbeaten(working.length > 0 ? working : known, toGain(x), toGain(y)).sort(
    (a, b) => x.values[a] - x.values[b] || a - b,
  );
}

/** A column's values turned so that more is better. */
function toGain({ values, better }: Column): (place: number) => number {
  return better === 'more' ? (place) => values[place] : (place) => -values[place];
}

/** Those of which no other is better in one and as good in the other: a sweep from the best x down. */
function unbeaten(
  places: readonly number[],
  x: (place: number) => number,
  y: (place: number) => number,
): number[] {
  const front: number[] = [];
  let best = Number.NEGATIVE_INFINITY;
  let bestAt = Number.NaN;
  for (const place of [...places].sort((a, b) => x(b) - x(a) || y(b) - y(a))) {
    // As good in both as the last one of the front is no worse.
    if (y(place) > best || (y(place) === best && x(place) === bestAt)) {
      front.push(place);
      best = y(place);
      bestAt = x(place);
    }
  }
  return front;
}
