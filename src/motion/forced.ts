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
 * To which of the two places in which it can shut a fold that points out brings its crease: back over its parents' own (−1),
 * as it is meant to, or away from it (1), as a box does: where it is exact there, or much too far off for the other.
 * @param away and back: its excess for either
 */
export const outwardWay = (away: number, back: number, slight: number): 1 | -1 =>
  Math.abs(away) < EXACT || (Math.abs(back) > slight && Math.abs(away) < Math.abs(back)) ? 1 : -1;

const EXACT = 1e-9;
