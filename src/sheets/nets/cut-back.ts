import {
  areaOf,
  cardIn,
  circle,
  direction,
  distance,
  distanceTo,
  inside,
  type Point,
  type Ring,
  type Segment,
  type Shape,
} from '../../geometry/plane.js';
import { less, overlapOf, solid, totalArea } from '../../geometry/region.js';
import type { Assembly } from '../../motion/assembly.js';
import { cardBeside } from './card-side.js';
import type { Tab } from './tabs.js';

/** A disc round a hub in which nothing may be glued, on one panel. */
export interface KeepOut {
  readonly panel: number;
  readonly at: Point;
  readonly radius: number;
}

/** Under this much lost, mm², nothing is said and nothing is cut. */
const NOTHING = 0.5;

/**
 * Cuts tabs back to where glue may go: on the card of what they are glued to (not over its edges, the gutter or a
 * hole), clear of hubs, and clear of the tabs that were there before them. Changes `cards`; says what it did.
 * @returns what it says, and the panels of the tabs that cannot be glued at all
 */
export function cutBackTabs(
  assembly: Assembly,
  cards: Shape[],
  tabs: readonly Tab[],
  keepOuts: readonly KeepOut[],
): { notes: string[]; useless: Set<number> } {
  const notes: string[] = [];
  const useless = new Set<number>();
  const placed: { receiver: number; face: number; shape: Shape; name: string }[] = [];
  for (const tab of tabs) {
    const { name } = assembly.panels[tab.panel];
    const receiver = assembly.panels[tab.receiver].name;
    let shape = cards[tab.panel];
    const cutTo = (left: Shape[], why: string) => {
      const lost = cardIn(shape) - totalArea(left);
      if (lost < NOTHING || useless.has(tab.panel)) return;
      const kept = mostAlong(left.flatMap(partedAtTouches), tab);
      if (kept === null) {
        useless.add(tab.panel);
        notes.push(`The tab '${name}' cannot be glued at all: it ${why}.`);
        return;
      }
      const share = cardIn(kept) / cardIn(shape);
      notes.push(
        `The tab '${name}' ${why}: it is cut back by ${(cardIn(shape) - cardIn(kept)).toFixed(0)} mm²${share < 0.5 ? `, and only ${(100 * share).toFixed(0)} % of it is left to glue` : ''}.`,
      );
      shape = kept;
    };
    const beside = cardBeside(cards[tab.owner], tab.ownerLine);
    const held = Math.max(beside.left, beside.right);
    if (held < 0.9)
      notes.push(
        `Only ${(100 * held).toFixed(0)} % of the crease of the tab '${name}' lies along card of '${assembly.panels[tab.owner].name}'.`,
      );
    if (tab.slit !== null) shape = overlapOf(shape, bandAcross(tab.slit))[0] ?? shape;
    cutTo(
      overlapOf(shape, cards[tab.receiver]),
      `reaches past the card of '${receiver}' or over a hole in it`,
    );
    for (const { panel, at, radius } of keepOuts)
      if (panel === tab.receiver)
        cutTo(less(shape, solid(circle(at, radius))), `comes too near to the hub on '${receiver}'`);
    for (const other of placed)
      if (other.receiver === tab.receiver && other.face === tab.receiverFace)
        cutTo(less(shape, other.shape), `would lie over the tab '${other.name}' on '${receiver}'`);
    cards[tab.panel] = shape;
    if (!useless.has(tab.panel)) placed.push({ receiver: tab.receiver, face: tab.receiverFace, shape, name });
  }
  return { notes, useless };
}

/** Corners this near to another edge touch it, mm: a neck so narrow tears. */
const TOUCHING = 0.05;

/** A shape cut in two wherever its outline touches itself: at such a point no card holds the parts together. */
function partedAtTouches(shape: Shape): Shape[] {
  const ring = shape.outline;
  for (let i = 0; i < ring.length; i++)
    for (let j = 0; j < ring.length; j++) {
      const next = (j + 1) % ring.length;
      if (i === j || i === next) continue;
      if (distanceTo([ring[j], ring[next]], ring[i]) > TOUCHING) continue;
      if (isNeck(ring, i, j)) {
        const between = (from: number, to: number): Ring => {
          const out = [];
          for (let k = from; k !== to; k = (k + 1) % ring.length) out.push(ring[k]);
          return [...out, ring[to]];
        };
        const rings = [between(i, j), between(next, i)].filter(
          (part) => part.length > 2 && areaOf(part) > NOTHING,
        );
        return rings.flatMap((outline) =>
          partedAtTouches({
            outline,
            holes: shape.holes.filter((hole) => inside(outline, hole[0])),
          }),
        );
      }
    }
  return [shape];
}

/** Whether card goes on for a while both ways round between corner i and edge j: no mere blunt corner. */
function isNeck(ring: Ring, i: number, j: number): boolean {
  const way = (from: number, to: number) => {
    let long = 0;
    for (let k = from; k !== to; k = (k + 1) % ring.length)
      long += distance(ring[k], ring[(k + 1) % ring.length]);
    return long;
  };
  return way(i, j) > 10 * TOUCHING && way((j + 1) % ring.length, i) > 10 * TOUCHING;
}

/** Of the parts that are left of a tab, the one that holds most of its crease; null where none holds any. */
export function mostAlong(parts: readonly Shape[], tab: Pick<Tab, 'line' | 'side'>): Shape | null {
  let best: Shape | null = null;
  let most = 0;
  for (const part of parts) {
    const beside = cardBeside(part, tab.line);
    const held = tab.side === 1 ? beside.left : beside.right;
    if (held > most) {
      most = held;
      best = part;
    }
  }
  return best;
}

/** All that lies beside a slit, square to it: what of a tab can pass. */
function bandAcross(slit: Segment): Shape {
  const far = 1000;
  const [ex, ey] = direction(slit);
  const [[ax, ay], [bx, by]] = slit;
  return solid([
    [ax + far * ey, ay - far * ex],
    [bx + far * ey, by - far * ex],
    [bx - far * ey, by + far * ex],
    [ax - far * ey, ay + far * ex],
  ]);
}
