import type { Random } from './random.js';
import type { Space } from './variables.js';

/**
 * How new candidates are made from old ones, in the unit cube of a `Space`. A stepped dim is treated as a real one, a
 * choice is taken over from one parent, for its options have no order. Children may lie outside the cube and between
 * cells: `snap` of the space puts them right. Cutting off at the wall, not bouncing, lets a dim reach the end of its range,
 * where many a best design lies.
 */

/**
 * One child of two parents by simulated binary crossover, each dim with odds 1/2, within bounds (K. Deb, R. B. Agrawal,
 * Complex Systems 9, 1995; the bounded form of Deb's own NSGA-II, from memory).
 * @param nearness the distribution index: the higher, the nearer the child is to a parent
 */
export function crossed(
  random: Random,
  space: Space,
  a: Float64Array,
  b: Float64Array,
  nearness: number,
): Float64Array {
  const child = a.slice();
  for (let i = 0; i < child.length; i++) {
    if (random.next() < 0.5 || a[i] === b[i]) continue;
    if (space.isChoice[i]) {
      child[i] = b[i];
      continue;
    }
    const low = Math.min(a[i], b[i]);
    const high = Math.max(a[i], b[i]);
    const upper = random.next() < 0.5;
    const room = upper ? 1 - high : low;
    const alpha = 2 - (1 + (2 * room) / (high - low)) ** -(nearness + 1);
    const u = random.next();
    const spread = (u <= 1 / alpha ? u * alpha : 1 / (2 - u * alpha)) ** (1 / (nearness + 1));
    const middle = (low + high) / 2;
    child[i] = middle + ((upper ? 1 : -1) * spread * (high - low)) / 2;
  }
  return child;
}

/**
 * One child by differential evolution, rand/1/bin: the base, moved in some dims along the difference of two others
 * (R. Storn, K. Price, Journal of Global Optimization 11, 1997).
 * @param rate odds that a dim moves; one always does
 */
export function differed(
  random: Random,
  space: Space,
  base: Float64Array,
  from: Float64Array,
  to: Float64Array,
  scale: number,
  rate: number,
): Float64Array {
  const child = base.slice();
  const always = random.below(child.length);
  for (let i = 0; i < child.length; i++) {
    if (i !== always && random.next() >= rate) continue;
    if (space.isChoice[i]) child[i] = random.next() < 0.5 ? from[i] : to[i];
    else child[i] = base[i] + scale * (to[i] - from[i]);
  }
  return child;
}

/**
 * One child near a point: about half of its dims move by a normal step, as long as two others are apart in that dim. Unlike
 * `differed` it leaves the line between the two, so that it reaches places that no sum of differences does.
 */
export function jittered(
  random: Random,
  space: Space,
  base: Float64Array,
  from: Float64Array,
  to: Float64Array,
): Float64Array {
  const child = base.slice();
  for (let i = 0; i < child.length; i++) {
    if (space.isChoice[i] || random.next() < 0.5) continue;
    child[i] = base[i] + 0.35 * (to[i] - from[i]) * random.normal();
  }
  return child;
}

/**
 * Polynomial mutation in place, each dim with the given odds (K. Deb, M. Goyal 1996; the bounded form, from memory). A
 * stepped dim that would stay in its cell goes to the next one; a choice goes to another option.
 */
export function mutate(
  random: Random,
  space: Space,
  unit: Float64Array,
  odds: number,
  nearness: number,
): void {
  for (let i = 0; i < unit.length; i++) {
    if (random.next() >= odds) continue;
    const cells = space.cells[i];
    const x = unit[i];
    if (space.isChoice[i]) {
      const cell = Math.floor(x * cells);
      if (cells > 1) unit[i] = (((cell + 1 + random.below(cells - 1)) % cells) + 0.5) / cells;
      continue;
    }
    const u = random.next();
    const power = 1 / (nearness + 1);
    // Of a child that lies outside the cube the wall is behind it, and below zero there is no root: then it goes all the way.
    const step =
      u < 0.5
        ? Math.max(0, 2 * u + (1 - 2 * u) * (1 - x) ** (nearness + 1)) ** power - 1
        : 1 - Math.max(0, 2 * (1 - u) + (2 * u - 1) * x ** (nearness + 1)) ** power;
    unit[i] = cells > 1 && Math.abs(step) * cells < 1 ? x + Math.sign(step) / cells : x + step;
  }
}
