import { breadthOf, leastBreadth } from '../geometry/breadth.js';
import { type Shape, shapeOf } from '../geometry/plane.js';
import { cardArea, type Polygon } from '../geometry/polygon.js';
import { overlapOf } from '../geometry/region.js';
import type { Assembly } from '../motion/assembly.js';
import { liesOn, placedShape, placingIn } from './clash/bodies.js';

/** How little of something there is, and between which panels: what is glued on, and what it is glued to. */
interface Least {
  readonly value: number;
  readonly between: readonly [number, number];
}

/**
 * The least area of any place of glue, mm²; the least breadth of any, mm, of the largest disc in it; and the least share of any flat
 * piece that is glued down, per cent of its card: null where there is none.
 */
export interface LeastGlue {
  readonly area: Least;
  readonly breadth: Least;
  readonly share: Least | null;
}

/** Glue lies where what is glued on and its receiver overlap. Null where nothing is glued. */
export function leastGlue({ panels, joints, open }: Assembly): LeastGlue | null {
  const places = joints.flatMap(({ kind, between: [on, k] }) => {
    if (kind !== 'glue') return [];
    const under = placedShape(panels[on], placingIn(open, on, k));
    const common = liesOn(panels[k], under)
      ? [panels[k]]
      : overlapOf(shapeOf(panels[k]), shapeOf(under)).map(asPolygon);
    const area = common.reduce((sum, shape) => sum + cardArea(shape), 0);
    return [{ common, area, bound: Math.max(0, ...common.map(leastBreadth)), between: [k, on] as const }];
  });
  if (places.length === 0) return null;
  places.sort((a, b) => a.bound - b.bound);
  let breadth: Least | null = null;
  for (const { common, bound, between } of places) {
    if (breadth !== null && bound >= breadth.value) break;
    const value = Math.max(0, ...common.map((shape) => breadthOf(shape).breadth));
    if (breadth === null || value < breadth.value) breadth = { value, between };
  }
  const smallest = places.reduce((one, other) => (other.area < one.area ? other : one));
  let share: Least | null = null;
  for (const { area, between } of places) {
    const [k] = between;
    if (panels[k].role === 'tab') continue;
    const value = (100 * area) / cardArea(panels[k]);
    if (share === null || value < share.value) share = { value, between };
  }
  return breadth === null
    ? null
    : { area: { value: smallest.area, between: smallest.between }, breadth, share };
}

const asPolygon = ({ outline, holes }: Shape): Polygon => ({
  outline: Float64Array.from(outline.flat()),
  holes: holes.map((hole) => Float64Array.from(hole.flat())),
});
