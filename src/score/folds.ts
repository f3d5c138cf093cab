import type { Line } from '../geometry/line.js';
import { shareOnCard } from '../geometry/on-card.js';
import { type Assembly, isPage } from '../motion/assembly.js';

/** All creases between two panels of one piece. */
export interface Fold {
  readonly between: readonly [number, number];
  /** Of them on card, mm: in all. */
  length: number;
  /** How far the lesser of the two panels reaches along them, mm. */
  along: number;
  /** The middle of one, on the first panel. */
  readonly at: readonly [number, number];
}

/** The folds inside pieces, but for that between the pages. */
export function foldsOf({ panels, joints }: Assembly): Fold[] {
  const folds = new Map<number, Fold>();
  for (const joint of joints) {
    if (joint.kind !== 'crease' || joint.of !== 'fold') continue;
    const [a, b] = joint.between;
    if (isPage(a) && isPage(b)) continue;
    const key = Math.min(a, b) * panels.length + Math.max(a, b);
    const [{ x0, y0, x1, y1 }] = joint.lines;
    let fold = folds.get(key);
    if (fold === undefined) {
      fold = { between: [a, b], length: 0, along: Infinity, at: [(x0 + x1) / 2, (y0 + y1) / 2] };
      folds.set(key, fold);
    }
    let share = 1;
    joint.between.forEach((k, end) => {
      share = Math.min(share, shareOnCard(joint.lines[end], panels[k]));
      fold.along = Math.min(fold.along, reachAlong(panels[k].outline, joint.lines[end]));
    });
    fold.length += share * Math.hypot(x1 - x0, y1 - y0);
  }
  return [...folds.values()];
}

/** How far a ring reaches along a line, from its one end to its other, mm. */
function reachAlong(ring: Float64Array, { x0, y0, x1, y1 }: Line): number {
  const long = Math.hypot(x1 - x0, y1 - y0);
  let [least, most] = [Infinity, -Infinity];
  for (let i = 0; i < ring.length; i += 2) {
    const at = ((ring[i] - x0) * (x1 - x0) + (ring[i + 1] - y0) * (y1 - y0)) / long;
    least = Math.min(least, at);
    most = Math.max(most, at);
  }
  return most - least;
}

/** Of all folds the shortest, for how far the lesser of its panels reaches along it: per cent of that. */
export interface ShortestFold {
  readonly share: number;
  readonly between: readonly [number, number];
}

/** Null where nothing is folded but the pages. */
export function shortestFold(folds: readonly Fold[]): ShortestFold | null {
  let shortest: ShortestFold | null = null;
  for (const { between, length, along } of folds) {
    const share = (100 * length) / along;
    if (shortest === null || share < shortest.share) shortest = { share, between };
  }
  return shortest;
}
