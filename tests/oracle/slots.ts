/** Slots: the room of what passes through, from where its panel cuts the plane of the other; and figures that have some. */
import { crossing, cutsPlane, type Placed } from './crossing.js';
import { type Figure, Locked, reference, type Scene, sceneAt, withTwins } from './rigid.js';
import { areaOf, type Card, cardsOf, common } from './shapes.js';
import type { P2 } from './space.js';

/** mm: the least room of what passes through a slot, over the page angles; null where it never crosses. */
export function roomOf(passing: Card, on: Card, hole: P2[], scenes: Scene[]): number | null {
  let least: number | null = null;
  for (const scene of scenes)
    for (const stretch of cutsPlane(placed(passing, scene), scene.panel(on.in)))
      least = Math.min(least ?? Infinity, roomIn(stretch, hole));
  return least;
}

const placed = (card: Card, scene: Scene): Placed => ({ area: card.area, frame: scene.panel(card.in) });

/** mm from a stretch to the edge of a hole: less than 0 as far as it reaches out of it. */
function roomIn([from, to]: [P2, P2], hole: P2[]): number {
  const STEPS = 40;
  let least = Infinity;
  for (let i = 0; i <= STEPS; i++) {
    const along = (k: 0 | 1) => from[k] + (i / STEPS) * (to[k] - from[k]);
    least = Math.min(least, inHole([along(0), along(1)], hole));
  }
  return least;
}

function inHole([x, y]: P2, hole: P2[]): number {
  let [inside, nearest] = [false, Infinity];
  hole.forEach(([a, b], i) => {
    const [c, d] = hole[(i + 1) % hole.length];
    if (b > y !== d > y && x < a + ((y - b) * (c - a)) / (d - b)) inside = !inside;
    const t = Math.min(
      1,
      Math.max(0, ((x - a) * (c - a) + (y - b) * (d - b)) / ((c - a) ** 2 + (d - b) ** 2)),
    );
    nearest = Math.min(nearest, Math.hypot(x - a - t * (c - a), y - b - t * (d - b)));
  });
  return inside ? nearest : -nearest;
}

/** The part of a panel: two panels of one part meet at a crease. */
const root = (panel: string) => panel.split(' ').slice(0, 2).join(' ');

/** The figure with a slot where one of its panels goes through another, if a hole around that lies on card. */
export function withSlot(drawn: Figure, margin: number): Figure {
  const figure = withTwins(drawn);
  const known = reference(figure);
  if (known === null) return drawn;
  const scenes: Scene[] = [];
  try {
    for (let pageAngle = 170; pageAngle >= 10; pageAngle -= 8) scenes.push(sceneAt(figure, pageAngle, known));
  } catch (error) {
    if (!(error instanceof Locked)) throw error;
    return drawn;
  }
  const cards = cardsOf(figure, known).filter((card) => card.strip === null);
  for (const passing of cards.slice(2))
    for (const on of cards) {
      if (on === passing || on.glued !== null || root(on.name) === root(passing.name)) continue;
      if (!scenes.some((scene) => crossing(placed(passing, scene), placed(on, scene)) !== null)) continue;
      const points = scenes.flatMap((scene) => cutsPlane(placed(passing, scene), scene.panel(on.in)).flat());
      const [xs, ys] = [0, 1].map((k) => points.map((p) => p[k]));
      const rounded = (n: number) => Math.round(n * 10) / 10;
      const [x0, y0] = [xs, ys].map((of) => rounded(Math.min(...of) - margin));
      const [x1, y1] = [xs, ys].map((of) => rounded(Math.max(...of) + margin));
      if (x1 - x0 < 2 || y1 - y0 < 2) continue;
      const outline: P2[] = [
        [x0, y0],
        [x1, y0],
        [x1, y1],
        [x0, y1],
      ];
      const edge: P2[] = [
        [x0 - 2, y0 - 2],
        [x1 + 2, y0 - 2],
        [x1 + 2, y1 + 2],
        [x0 - 2, y1 + 2],
      ];
      const needs = [[edge]];
      if (areaOf(common(needs, on.area)) < areaOf(needs) - 1e-3) continue;
      const slot = { name: 'slot', kind: 'slot', on: on.name, outline, passes: passing.name };
      return { ...drawn, parts: [...drawn.parts, slot] };
    }
  return drawn;
}
