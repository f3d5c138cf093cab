import type { Candidate } from './archive.js';
import { crowding, objectiveRange } from './pareto.js';
import type { Random } from './random.js';
import type { Space } from './variables.js';
import { differed, jittered, mutate } from './variation.js';

const NEIGHBOURS = 8;

/**
 * Local refinement of a front: makes points near its members, most where the front has gaps. A member moves as far as its
 * neighbours on the front differ in dims, so steps shrink by themselves as the front settles; now and then one dim moves
 * a little on its own, which also tries the next step of a stepped dim and the other options of a choice.
 *
 * @param front members of an archive, at least three
 * @returns a function that makes one snapped point after the other
 */
export function refiner(random: Random, space: Space, front: readonly Candidate[]): () => Float64Array {
  const all = front.map((_, i) => i);
  const room = crowding(
    front.map((c) => c.scored),
    all,
  );
  const nearest = neighbourhoods(front);
  return () => {
    const a = random.below(front.length);
    const b = random.below(front.length);
    const i = room[a] >= room[b] ? a : b;
    const near = nearest(i);
    const other = () => front[near[random.below(near.length)]].unit;
    const base = front[i].unit;
    const way = random.next();
    let child: Float64Array;
    if (way < 0.5) child = jittered(random, space, base, base, other());
    else if (way < 0.8)
      child = differed(random, space, base, other(), other(), 0.3 + 0.6 * random.next(), 0.7);
    else {
      child = base.slice();
      mutate(random, space, child, 1.5 / space.size, 60);
    }
    return space.snap(child);
  };
}

/** For each member those that score most alike, looked for when first asked and then kept. */
function neighbourhoods(front: readonly Candidate[]): (member: number) => number[] {
  const all = front.map((_, i) => i);
  const { low, high } = objectiveRange(
    front.map((c) => c.scored),
    all,
  );
  const found: number[][] = [];
  return (i) => {
    found[i] ??= (() => {
      const distance = front.map(({ scored }) =>
        scored.objectives.reduce((sum, o, j) => {
          const share = (o - front[i].scored.objectives[j]) / (high[j] - low[j] || 1);
          return sum + share * share;
        }, 0),
      );
      return all
        .filter((k) => k !== i)
        .sort((a, b) => distance[a] - distance[b] || a - b)
        .slice(0, NEIGHBOURS);
    })();
    return found[i];
  };
}
