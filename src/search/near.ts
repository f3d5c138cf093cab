import type { Random } from './random.js';
import type { Space } from './variables.js';
import { mutate } from './variation.js';

/** Most points around a given one. */
const MOST = 15;
/** A small search spends no more than this share of its budget on them. */
const SHARE = 0.02;

/** How many points are tried around a given one. */
export const countNear = (budget: number): number => Math.min(MOST, Math.floor(SHARE * budget));

/** A point around a given one: about half of its dims moved a little, snapped. */
export function near(random: Random, space: Space, unit: Float64Array): Float64Array {
  const child = unit.slice();
  mutate(random, space, child, 0.5, 20);
  return space.snap(child);
}
