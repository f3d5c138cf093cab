import { excessOf, type Way } from '../card/fold-room.js';

type Pair = readonly [number, number];

/**
 * How much of a fold's excess must be forced, because the fold stands between pages that close on it.
 * @param room what it may be off before that, mm or radians: see `src/card/fold-room.ts`
 * @returns what is forced, of the sign of the excess; 0 while there is room for all of it
 */
export function forcedBy(excess: number, room: number): number {
  const beyond = Math.abs(excess) - Math.max(0, room);
  return beyond <= 0 ? 0 : Math.sign(excess) * beyond;
}

/**
 * What is forced by more than this locks: card never gives so much. No number of a maker's: it is where the model of a fold ends. Long
 * before, the page is too hard to turn (an A5 page with a V-fold that is 2° off takes 56 N at 2°), or card tears.
 */
export const LOCKS_BEYOND = { mm: 3, radians: Math.PI / 60 } as const;

/**
 * The share of what should be forced to which a fold yields. One that is off by more than card ever gives is not cut wrong,
 * it is one that cannot shut: off by twice as much it moves as a rigid one does, and locks. Between the two the share falls evenly, so that
 * nothing leaps.
 */
export function yieldsBy(excess: number, slight: number): number {
  return Math.min(1, Math.max(0, 2 - Math.abs(excess) / slight));
}

/**
 * To which of the two places in which it can shut a fold brings its crease: d + w from the parents' crease (1), as one that points
 * in does; or d − w, back over it (−1), as one that points out is meant to. But out it may shut away from it (1), too, as a box
 * does: where it is exact there and not here, or much too far off for the other.
 * @param feet distances or glue angles @param sides widths or sectors, in the same unit
 * @param slight what a fold may be off at most, in that unit (see `LOCKS_BEYOND`)
 */
export function shutWay(feet: Pair, sides: Pair, points: 'in' | 'out', slight: number): Way {
  if (points === 'in') return 1;
  const [away, back] = [Math.abs(excessOf(feet, sides, 1)), Math.abs(excessOf(feet, sides, -1))];
  return away < back && (away < EXACT || back > slight) ? 1 : -1;
}

const EXACT = 1e-9;
