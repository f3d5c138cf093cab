import type { Scored } from './evaluator.js';
import { objectiveRange, sortIntoFronts } from './pareto.js';

/**
 * Which candidates go on to the next generation: whole fronts, best first, and of the first that does not fit those
 * that stand apart.
 * @returns indices, `count` of them or all there are, best front first
 */
export function survivors(scored: readonly Scored[], count: number): number[] {
  const fronts: number[][] = [];
  sortIntoFronts(scored).forEach((rank, i) => {
    fronts[rank] ??= [];
    fronts[rank].push(i);
  });
  const chosen: number[] = [];
  for (const front of fronts) {
    const room = count - chosen.length;
    if (room <= 0) break;
    chosen.push(...(front.length <= room ? front : thinned(scored, front, room)));
  }
  return chosen;
}

/** Objectives of a front's members as shares of its range in each, row by row. */
function shares(scored: readonly Scored[], front: readonly number[]): { table: Float64Array; width: number } {
  const { low, high } = objectiveRange(scored, front);
  const width = low.length;
  const table = new Float64Array(front.length * width);
  for (let i = 0; i < front.length; i++) {
    const row = scored[front[i]].objectives;
    for (let j = 0; j < width; j++) {
      const share = (row[j] - low[j]) / (high[j] - low[j] || 1);
      // What was not computed stands apart from all that was, and nowhere else.
      table[i * width + j] = Number.isFinite(share) ? share : 2;
    }
  }
  return { table, width };
}

/**
 * Thins one front to `count` members: again and again the member with the nearest neighbour goes, and of a pair of
 * neighbours the one whose next neighbour is nearer (truncation of SPEA2: E. Zitzler, M. Laumanns, L. Thiele, TIK
 * report 103, ETH Zurich 2001). Distances are in shares of the front's range. The best in each objective stay, as long
 * as there is room. Ties go against the higher index.
 * @returns indices out of `front`, in its order
 */
export function thinned(scored: readonly Scored[], front: readonly number[], count: number): number[] {
  const n = front.length;
  const { table, width } = shares(scored, front);
  const alive = new Uint8Array(n).fill(1);
  const safe = new Uint8Array(n);
  for (let j = 0, free = count; j < width && free > 0; j++) {
    let best = 0;
    for (let i = 1; i < n; i++) if (table[i * width + j] < table[best * width + j]) best = i;
    if (!safe[best]) free--;
    safe[best] = 1;
  }

  const nearest = new Int32Array(n);
  const second = new Int32Array(n);
  const near = new Float64Array(n);
  const next = new Float64Array(n);
  const look = (a: number) => {
    near[a] = Infinity;
    next[a] = Infinity;
    nearest[a] = -1;
    second[a] = -1;
    for (let b = 0; b < n; b++) {
      if (b === a || !alive[b]) continue;
      let sum = 0;
      for (let j = 0; j < width; j++) sum += (table[a * width + j] - table[b * width + j]) ** 2;
      if (sum < near[a]) {
        next[a] = near[a];
        second[a] = nearest[a];
        near[a] = sum;
        nearest[a] = b;
      } else if (sum < next[a]) {
        next[a] = sum;
        second[a] = b;
      }
    }
  };
  for (let a = 0; a < n; a++) look(a);

  for (let left = n; left > count; left--) {
    let worst = -1;
    for (let a = 0; a < n; a++) {
      if (!alive[a] || safe[a]) continue;
      if (worst < 0 || near[a] < near[worst] || (near[a] === near[worst] && next[a] <= next[worst]))
        worst = a;
    }
    alive[worst] = 0;
    for (let a = 0; a < n; a++) if (alive[a] && (nearest[a] === worst || second[a] === worst)) look(a);
  }
  return front.filter((_, i) => alive[i]);
}
