import { SLIVER } from '../geometry/coverage.js';
import { visitCells } from '../geometry/trapezoids.js';
import { type Assembly, FIRST_AFTER_PAGES as FIRST, LEFT_PAGE, RIGHT_PAGE } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';
import { POSE } from '../motion/pose.js';
import { shutShapes } from './flat.js';

/** Which panel lies on which in the shut book. Panels by index; the left page is at the bottom. */
export interface Stack {
  /** Every two panels, not glued to one another, that overlap: the upper, the lower. */
  readonly over: readonly (readonly [number, number])[];
  /** All panels that overlap any other, from the left page up: each above all that it lies on; null where there is a loop. */
  readonly order: readonly number[] | null;
  /** Panels each of which lies on the next, and the last on the first; null where there are none. */
  readonly loop: readonly number[] | null;
  /** Overlapping panels of which it can't be told: they come down together. */
  readonly level: readonly (readonly [number, number])[];
}

/** Page angles, from nearly shut, at which heights are compared until they differ, degrees; the last two of limbs alone. */
const AJAR = [0.1, 0.5, 1, 2, 5, 10];
const LIMBS_ALONE = 2;
/** Heights within this are the same, mm. A limb may lie anywhere within the play of its hubs besides. */
const SAME = 1e-3;

/**
 * The order of the stack of card when shut, from how it comes down: for every two panels that overlap, their heights over
 * the overlap with the page ajar. Where one comes down above the other in one place and below it in another, they are a
 * loop of two. `null` for a figure that does not shut.
 *
 * What passes through a slot lies above in one place and below in another, and is left out with the panel it passes through.
 * A loop of three or more need not be a fault: flaps may lie on each other all round, as on the bottom of a carton. But
 * they can't be laid down one after the other.
 */
export function stackWhenShut(assembly: Assembly, opening: Opening): Stack | null {
  if (opening.lock !== null || opening.count < 2) return null;
  const { panels } = assembly;
  const { shapes } = shutShapes(assembly, opening.frame(opening.count - 1));
  const ajar = AJAR.map((pageAngle) => opening.at(pageAngle).slice());
  const play = playOf(assembly);
  const over: [number, number][] = [];
  const level: [number, number][] = [];
  for (let i = 0; i < shapes.length; i++)
    for (let j = i + 1; j < shapes.length; j++) {
      const [a, b] = [FIRST + i, FIRST + j];
      if (panels[a].body === panels[b].body || passes(assembly, a, b)) continue;
      const places: [number, number][] = [];
      visitCells([shapes[i], shapes[j]], [0, 0], ({ count, width, height, across, x, y }) => {
        if (count === 2 && height > SLIVER && across > SLIVER && width > SLIVER) places.push([x, y]);
      });
      const loose = Math.max(play[a], play[b]);
      const sides = sidesOf(loose > 0 ? ajar : ajar.slice(0, -LIMBS_ALONE), a, b, places, SAME + loose);
      if (sides.has(1)) over.push([a, b]);
      if (sides.has(-1)) over.push([b, a]);
      if (sides.size === 1 && sides.has(0)) level.push([a, b]);
    }
  return { over, level, ...ordered(assembly, over) };
}

/** How far each panel may lie off its place by the play of the hubs and slits of its chain, mm; 0 for what hangs on creases. */
function playOf({ panels, chains }: Assembly): number[] {
  const loose = new Map<number, number>();
  for (const { panels: links, joints } of chains.closed) {
    const play = Math.max(...joints.map((joint) => ('play' in joint ? joint.play : 0)));
    for (const link of links) loose.set(panels[link].body, play);
  }
  return panels.map(({ body }) => loose.get(body) ?? 0);
}

/** Whether one of two panels passes through the other, or through what that is glued to. */
function passes({ joints, panels }: Assembly, a: number, b: number): boolean {
  const bodies = [panels[a].body, panels[b].body];
  return joints.some(
    ({ kind, between }) => kind === 'slot' && between.every((k) => bodies.includes(panels[k].body)),
  );
}

/**
 * On which sides of panel b panel a comes down over some places of the left page: 1 above it, −1 below, 0 where neither. With
 * the page hardly ajar, play of a chain may make them seem to be now above, now below: where they are on one side all over
 * with the page a little more open, that is the side.
 */
function sidesOf(
  ajar: readonly Float64Array[],
  a: number,
  b: number,
  places: readonly (readonly [number, number])[],
  same: number,
): Set<number> {
  const all = ajar.map((poses) =>
    places.map(([x, y]) => {
      const higher = heightAt(poses, a, x, y) - heightAt(poses, b, x, y);
      return Math.abs(higher) > same ? Math.sign(higher) : 0;
    }),
  );
  const wholly = all.find(
    ([first, ...rest]) => first !== undefined && first !== 0 && rest.every((side) => side === first),
  );
  if (wholly !== undefined) return new Set(wholly.slice(0, 1));
  return new Set(places.map((_, place) => all.map((sides) => sides[place]).find((side) => side !== 0) ?? 0));
}

/** Height of a panel's plane above a place of the left page, mm. */
function heightAt(poses: Float64Array, k: number, x: number, y: number): number {
  const i = k * POSE;
  const slope = poses[i + 2] * (x - poses[i + 3]) + poses[i + 6] * (y - poses[i + 7]);
  return poses[i + 11] - slope / poses[i + 10];
}

/**
 * Lays panels down one after the other, each when all that it lies on is down; or finds a loop (Kahn's algorithm). Where
 * there is a choice, what is glued to the left page goes first, and what is glued to the right one last.
 */
function ordered(
  { panels }: Assembly,
  over: readonly (readonly [number, number])[],
): Pick<Stack, 'order' | 'loop'> {
  const turn = (k: number) => (panels[k].body === LEFT_PAGE ? 0 : panels[k].body === RIGHT_PAGE ? 2 : 1);
  const left = new Set(over.flat().sort((a, b) => turn(a) - turn(b) || a - b));
  const order: number[] = [];
  while (left.size > 0) {
    const next = [...left].find((k) => !over.some(([upper, lower]) => upper === k && left.has(lower)));
    if (next === undefined) return { order: null, loop: loopIn(over, left) };
    left.delete(next);
    order.push(next);
  }
  return { order, loop: null };
}

/** Going down from panel to panel among those left, each of which lies on another, one comes back to where one was. */
function loopIn(over: readonly (readonly [number, number])[], left: ReadonlySet<number>): number[] {
  const way: number[] = [];
  let [at] = left;
  while (!way.includes(at)) {
    way.push(at);
    const below = over.find(([upper, lower]) => upper === at && left.has(lower));
    at = (below as readonly [number, number])[1];
  }
  return way.slice(way.indexOf(at));
}
