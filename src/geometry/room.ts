import polylabel from 'polylabel';
import { boxOf, cardIn, distance, edgesOf, onCard, type Point, type Segment, type Shape } from './plane.js';

/** How near to the widest a place is that counts as it, mm. */
const EXACT = 0.05;

/** The middle of the widest place of a shape: its pole of inaccessibility, by quadtree. */
export const widestPlace = (shape: Shape): Place => placeIn(shape, EXACT);

/**
 * The middle of a wide place of a shape, where none is wider by more than a quarter: found in a fraction of the time, since along
 * a strip every place is as wide as the next.
 *
 * Lines at a distance t within the edges are no longer than these, where there is one hole or none, and from the widest place's
 * radius r on there are none (inner parallel curves: B. Sz.-Nagy, Acta Scientiarum Mathematicarum 20, 1959, from memory). So area ≤
 * r · length of the edges: a fifth of area / length is no more than r / 5. What is found is less than r by so much at most.
 */
export function widePlace(shape: Shape): Place {
  const length = [shape.outline, ...shape.holes]
    .flatMap(edgesOf)
    .reduce((sum, [from, to]) => sum + distance(from, to), 0);
  const within = Math.max(EXACT, (0.2 * cardIn(shape)) / length);
  const found = placeIn(shape, within);
  // Many small holes add little to the length.
  return found.radius >= 4 * within ? found : widestPlace(shape);
}

interface Place {
  readonly at: Point;
  /** How far it is from the edge, mm. */
  readonly radius: number;
}

function placeIn({ outline, holes }: Shape, within: number): Place {
  const rings = [outline, ...holes].map((ring) => ring.map(([x, y]): [number, number] => [x, y]));
  const found = polylabel(rings, within);
  return { at: [found[0], found[1]], radius: found.distance };
}

/** Where a text of so many mm fits in one of the shapes, across or else upwards; null where it fits nowhere. */
export function roomFor(
  shapes: readonly Shape[],
  width: number,
  height: number,
): { at: Point; turn: 0 | 90 } | null {
  for (const turn of [0, 90] as const) {
    const [w, h] = turn === 0 ? [width, height] : [height, width];
    for (const shape of shapes) {
      const wide = widestPlace(shape).at;
      const box = boxOf(shape.outline);
      const edges = [shape.outline, ...shape.holes].flatMap(edgesOf);
      const places: Point[] = [wide];
      for (let i = 1; i < 12; i++)
        for (let j = 1; j < 12; j++)
          places.push([
            box.left + ((box.right - box.left) * i) / 12,
            box.low + ((box.high - box.low) * j) / 12,
          ]);
      const fits = places.find((at) => rectangleFits(shape, edges, at, w, h));
      if (fits !== undefined) return { at: fits, turn };
    }
  }
  return null;
}

/** Whether a rectangle about a point lies wholly on the card: its middle does, and no edge comes into it. */
function rectangleFits(
  shape: Shape,
  edges: readonly Segment[],
  [x, y]: Point,
  width: number,
  height: number,
): boolean {
  if (!onCard(shape, [x, y])) return false;
  return edges.every((edge) => clearOf(edge, x - width / 2, y - height / 2, x + width / 2, y + height / 2));
}

/** Whether a segment stays out of a box (Liang and Barsky's clipping leaves nothing). */
export function clearOf([a, b]: Segment, left: number, low: number, right: number, high: number): boolean {
  let from = 0;
  let to = 1;
  for (let k = 0; k < 2; k++) {
    const [start, step] = [a[k], b[k] - a[k]];
    const [least, most] = k === 0 ? [left, right] : [low, high];
    if (Math.abs(step) < 1e-12) {
      if (start < least || start > most) return true;
      continue;
    }
    const [t1, t2] = [(least - start) / step, (most - start) / step];
    from = Math.max(from, Math.min(t1, t2));
    to = Math.min(to, Math.max(t1, t2));
    if (from > to) return true;
  }
  return false;
}
