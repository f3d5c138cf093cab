import type { Space } from './variables.js';

/**
 * How different two designs are in their dims, 0 to 1: the root of the mean square of the differences, each as a share of
 * its range; another option is a difference of 1.
 * @param a, b points of the unit cube
 */
export function apart(space: Space, a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < space.size; i++) {
    const difference = space.isChoice[i] ? (a[i] === b[i] ? 0 : 1) : a[i] - b[i];
    sum += difference * difference;
  }
  return Math.sqrt(sum / space.size);
}

/**
 * Good and different: goes through designs from best to worst and takes each that is far enough from all taken before
 * (clearing: A. Pétrowski, IEEE Conference on Evolutionary Computation 1996). Where that gives too few, the distance is
 * halved and the rest is gone through again, so that a maker sees as many designs as there are, the most distinct first.
 *
 * @param values vectors of dims, best first
 * @param count how many are wanted
 * @param distance how far apart they should be, see `apart`
 * @returns places in `values` of those taken, in the order taken; copies of the same design are never taken twice
 */
export function distinct(
  space: Space,
  values: readonly ArrayLike<number>[],
  count: number,
  distance = 0.2,
): number[] {
  const units = values.map((v) => space.toUnit(v));
  const taken: number[] = [];
  // Below a thousandth of the ranges nobody can cut the difference.
  for (let least = distance; taken.length < count && least > 1e-3; least /= 2) {
    for (let i = 0; i < units.length && taken.length < count; i++) {
      if (taken.every((k) => k !== i && apart(space, units[k], units[i]) >= least)) taken.push(i);
    }
  }
  return taken;
}
