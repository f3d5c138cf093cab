import { median } from 'simple-statistics';
import { rankSum } from './rank-sum.js';

/** One thing by which variants are weighed, with a value for each variant and seed. */
export interface Measure {
  readonly name: string;
  readonly unit: string;
  readonly better: 'more' | 'less';
  /** For each variant its value with each seed; null where no dummy of that run works. */
  readonly values: readonly (readonly (number | null)[])[];
  /** A difference of less than this is none to a maker. */
  readonly matters: number;
  /** Whether a run in which nothing works counts as worst; else it is left out. */
  readonly nothingIsWorst: boolean;
}

/** How variants came out in one measure. */
export interface Weighed extends Measure {
  /** For each variant the median over the seeds, and its least and greatest value; null where none was computed. */
  readonly medians: readonly (number | null)[];
  readonly spans: readonly (readonly [number, number] | null)[];
  /** The variant that is better than every other, surely; null when there is none. */
  readonly winner: number | null;
  /** By how much its median is better than the next best; null without a winner, or where the others have none. */
  readonly by: number | null;
  /** How likely the best median comes of chance alone, against the variant nearest to it; null where not computed. */
  readonly chance: number | null;
}

/** A difference counts when chance alone would make one so large less often than this. */
export const SURE = 0.01;

/** Says which variant wins, if any does. */
export function weigh(measure: Measure): Weighed {
  const { values, better, nothingIsWorst } = measure;
  const worst = better === 'more' ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  const known = values.map((row) => row.filter((value) => value !== null));
  const ranked = values.map((row) =>
    nothingIsWorst ? row.map((value) => value ?? worst) : row.filter((value) => value !== null),
  );
  const medians = known.map((row) => (row.length === 0 ? null : median(row)));
  const middles = ranked.map((row) => (row.length === 0 ? null : middleOf(row)));
  const spans = known.map((row) =>
    row.length === 0 ? null : ([Math.min(...row), Math.max(...row)] as const),
  );
  const sign = better === 'more' ? 1 : -1;
  const places = middles.flatMap((middle, i) => (middle === null ? [] : [i]));
  const of = (i: number) => sign * (middles[i] ?? 0);
  const [best, next] = places.sort((a, b) => (of(a) === of(b) ? a - b : of(b) > of(a) ? 1 : -1));
  if (next === undefined || places.length < values.length)
    return { ...measure, medians, spans, winner: null, by: null, chance: null };
  const chance = Math.max(...places.slice(1).map((other) => rankSum(ranked[best], ranked[other])));
  const [first, second] = [medians[best], medians[next]];
  const wins = chance <= SURE && of(best) - of(next) >= measure.matters;
  return {
    ...measure,
    medians,
    spans,
    winner: wins ? best : null,
    by: wins && first !== null && second !== null ? Math.abs(first - second) : null,
    chance,
  };
}

/** The median, infinities included. */
function middleOf(row: readonly number[]): number {
  const sorted = [...row].sort((a, b) => (a === b ? 0 : a - b));
  const [low, high] = [sorted[(sorted.length - 1) >> 1], sorted[sorted.length >> 1]];
  return low === high ? low : (low + high) / 2;
}
