import type { Candidate } from './archive.js';
import { crowding, objectiveRange } from './pareto.js';
import type { Random } from './random.js';
import type { Space } from './variables.js';
import { differed, jittered, mutate } from './variation.js';

const NEIGHBOURS = 8;

/**
 * Local refinement of a front: makes points near its members, most where the front has gaps. A member moves as far as its
 * neighbours on the front differ in dims, so steps shrink by themselves as the front settles; now and then one dim moves
 * a little on its own, which also tries the next step of a stepped dim.
 *
 * @param front members of the archive, at least three
 * @returns a function that makes one snapped point after the other
 */
export function refiner(random: Random, space: Space, front: readonly Candidate[]): () => Float64Array {
  const scored = front.map((c) => c.scored);
  const all = scored.map((_, i) => i);
  const room = crowding(scored, all);
  const { low, high } = objectiveRange(scored, all);
  const apart = (a: number, b: number) => {
    let sum = 0;
    for (let j = 0; j < low.length; j++) {
      sum += ((scored[a].objectives[j] - scored[b].objectives[j]) / (high[j] - low[j] || 1)) ** 2;
    }
    return sum;
  };
  const neighbours = (i: number) => {
    const distance = all.map((k) => apart(i, k));
    return all
      .filter((k) => k !== i)
      .sort((a, b) => distance[a] - distance[b] || a - b)
      .slice(0, NEIGHBOURS);
  };
  return () => {
    const a = random.below(front.length);
    const b = random.below(front.length);
    const i = room[a] >= room[b] ? a : b;
    const near = neighbours(i);
    const other = () => front[near[random.below(near.length)]].unit;
    const way = random.next();
    let child: Float64Array;
    if (way < 0.5) child = jittered(random, space, front[i].unit, front[i].unit, other());
    else if (way < 0.8) child = differed(random, space, front[i].unit, other(), other(), 0.3 + 0.6 * random.next(), 0.7);
    else {
      child = front[i].unit.slice();
      mutate(random, space, child, 1.5 / space.size, 60);
    }
    return space.snap(child);
  };
}
