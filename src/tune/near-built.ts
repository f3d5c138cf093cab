import { apply, type Done, distance } from './change.js';
import { LADDER } from './ladder.js';
import { type Move, movesOf } from './moves.js';
import type { OpenedFigure } from './opened.js';

/** So many changes are made on top of one another: a file of which more is wrong is not understood. */
const MOST_CHANGES = 6;

/**
 * The candidate near to a figure that can be put together, whatever it does then; the figure itself where it can. A part that has no
 * place hides all that come after it: only here are they known, what they stand on, and what they need to shut. Of the changes
 * that let most parts be added the smallest is made, and again.
 * @returns the figure itself, too, where such changes lead nowhere
 */
export function nearestBuilt(opened: OpenedFigure, isHeld: (setting: number) => boolean): Float64Array {
  let made: Done[] = [];
  let left = opened.unbuilt(opened.now);
  const moves = left > 0 ? movesOf(opened, isHeld) : [];
  while (left > 0 && made.length < MOST_CHANGES) {
    let best: { done: Done[]; left: number; far: number } | null = null;
    for (const move of moves)
      for (const amount of amountsOf(move)) {
        const done = [...made, { move, amount }];
        const far = distance({ move, amount });
        const vector = apply(opened, done);
        const after = vector === null ? Infinity : opened.unbuilt(vector);
        if (after < (best?.left ?? left) || (best !== null && after === best.left && far < best.far))
          best = { done, left: after, far };
      }
    if (best === null) break;
    [made, left] = [best.done, best.left];
  }
  return (left === 0 && made.length > 0 ? apply(opened, made) : null) ?? opened.now;
}

function amountsOf({ kind, fitting, like }: Move): number[] {
  const measured = kind === 'word' ? [] : LADDER.flatMap((size) => [size, -size]);
  return [...fitting, ...like, ...measured];
}
