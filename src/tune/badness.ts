import type { Goal } from '../figure/wants.js';
import type { Layout, Row } from '../study/row.js';

/** What counts as much in a want as 1 mm of a broken limit. */
const SCALE = { degrees: 2, mm: 1 } as const;
/** A want that could not be measured is this bad. */
const UNKNOWN = 20;
/** What does not shut is worse than whatever shuts, and what is no card worse than what does not shut. */
const LOCKS = 1_000;
const NO_CARD = 1_000_000;
/** Each part more that has no place, or comes after one that has none, is so many times as bad. */
const NO_PLACE = 1.1;

/**
 * How far a candidate is from working, 0 where it works: what is to be brought down. A figure that locks is measured by
 * the page angle at which it does; what it would break beyond that is not known yet.
 * @param unbuilt how many parts are not there, where it cannot be built
 */
export function badness(row: Row, layout: Layout, goals: readonly Goal[], unbuilt: number): number {
  const { outcome, numbers, met } = row;
  if (outcome === 'works') return 0;
  if (outcome !== 'fails') return NO_CARD * NO_PLACE ** unbuilt;
  const shuts = layout.limits.findIndex(({ name }) => name === 'shuts');
  const locked = met[goals.length + shuts] === 0;
  const missed = goals.reduce(
    (sum, goal, want) => sum + (met[want] === 1 ? 0 : missedBy(layout.wantValue(numbers, want), goal)),
    0,
  );
  if (locked) return LOCKS * (1 + layout.limitValue(numbers, shuts) / 10) + missed;
  // Wants are met or missed by little: what is broken never counts as nothing.
  return Math.max(1e-3, layout.violation(numbers) + missed);
}

function missedBy(value: number, { least, most, target, tolerance, unit }: Goal): number {
  if (Number.isNaN(value)) return UNKNOWN;
  const short =
    target === undefined
      ? Math.max((least ?? value) - value, value - (most ?? value))
      : Math.abs(value - target) - (tolerance ?? 0);
  return Math.max(0, short) / SCALE[unit];
}
