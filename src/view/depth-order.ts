import type { Point, Ring } from '../geometry/plane.js';
import { overlapOf, solid } from '../geometry/region.js';
import { widePlace } from '../geometry/room.js';

/** A flat panel as it is seen. */
export interface Seen {
  /** Outline, then holes, on the picture. */
  readonly rings: readonly Ring[];
  /** How far off each corner of the outline is. */
  readonly depths: readonly number[];
}

/** Depths nearer than this are one, mm: glued to one another. */
const SAME = 0.05;

/**
 * The order in which panels must be drawn over one another, farthest first: of two that overlap in the picture, the
 * one that is farther off there comes first.
 * @param glued pairs that lie face to face, the one that is hidden first
 */
export function depthOrder(panels: readonly Seen[], glued: readonly (readonly [number, number])[]): number[] {
  const depthOf = panels.map(planeOf);
  /** Panels that must be drawn before each. */
  const behind = panels.map((): number[] => []);
  const pairs = new Set(glued.map(([a, b]) => `${a} ${b}`));
  for (let b = 0; b < panels.length; b++)
    for (let a = 0; a < b; a++) {
      const [deepA, deepB] = [depthOf[a], depthOf[b]];
      if (deepA === null || deepB === null) continue;
      const [common] = overlapOf(solid(panels[a].rings[0]), solid(panels[b].rings[0]));
      if (common === undefined) continue;
      const { at } = widePlace(common);
      const farther = deepA(at) - deepB(at);
      const first = Math.abs(farther) < SAME ? !pairs.has(`${b} ${a}`) : farther > 0;
      if (first) behind[b].push(a);
      else behind[a].push(b);
    }
  const order: number[] = [];
  const left = new Set(panels.keys());
  while (left.size > 0) {
    const free = [...left].find((panel) => behind[panel].every((other) => !left.has(other)));
    // Three panels that lie over one another in a ring have no order: then simply the farthest.
    const next =
      free ?? [...left].reduce((a, b) => (mean(panels[b].depths) > mean(panels[a].depths) ? b : a));
    left.delete(next);
    order.push(next);
  }
  return order;
}

/** The depth of a panel's plane at any point of the picture; null for a panel seen edge on. */
function planeOf({ rings: [ring], depths }: Seen): ((at: Point) => number) | null {
  const [[x0, y0]] = ring;
  let best = 0;
  let plane: ((at: Point) => number) | null = null;
  for (let i = 1; i + 1 < ring.length; i++) {
    const [ax, ay, az] = [ring[i][0] - x0, ring[i][1] - y0, depths[i] - depths[0]];
    const [bx, by, bz] = [ring[i + 1][0] - x0, ring[i + 1][1] - y0, depths[i + 1] - depths[0]];
    const turn = ax * by - ay * bx;
    if (Math.abs(turn) <= Math.max(best, 1e-3)) continue;
    best = Math.abs(turn);
    const [px, py] = [(az * by - bz * ay) / turn, (ax * bz - bx * az) / turn];
    plane = ([x, y]) => depths[0] + px * (x - x0) + py * (y - y0);
  }
  return plane;
}

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;
