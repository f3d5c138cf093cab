import { zeros } from './numbers.js';

/**
 * The outline of a panel, in the panel's own plane. Rings are x,y pairs in mm without a repeated last point.
 *
 * The outline is simple (it may be concave) and runs counter-clockwise; holes are simple, lie inside it and may
 * run either way. `faultOf` in faults.ts says where one is not so.
 */
export interface Polygon {
  readonly outline: Float64Array;
  readonly holes: readonly Float64Array[];
}

/** Area in mm² of one ring by the trapezoid sum: positive when it runs counter-clockwise. */
export function signedArea(ring: Float64Array): number {
  let twice = 0;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    // Taken from the first corner, so that a small panel far from the origin keeps its digits.
    const x = ring[i] - ring[0];
    const y = ring[i + 1] - ring[1];
    twice += (ring[j] - ring[0]) * y - x * (ring[j + 1] - ring[1]);
  }
  return twice / 2;
}

/** Area of card in mm²: the outline less its holes. */
export function cardArea(shape: Polygon): number {
  let area = Math.abs(signedArea(shape.outline));
  for (const hole of shape.holes) area -= Math.abs(signedArea(hole));
  return area;
}

/** The ring itself when it runs counter-clockwise, else a reversed copy. */
export function counterClockwise(ring: Float64Array): Float64Array {
  if (signedArea(ring) >= 0) return ring;
  const turned = zeros(ring.length);
  for (let i = 0; i < ring.length; i += 2) {
    turned[i] = ring[ring.length - 2 - i];
    turned[i + 1] = ring[ring.length - 1 - i];
  }
  return turned;
}

/**
 * Whether the point lies on the card: inside the outline and in no hole. Counts the edges that a ray towards +x
 * meets, each edge owning its lower end. A point exactly on an edge may come out either way.
 */
export function holds(shape: Polygon, x: number, y: number): boolean {
  let inside = crossesOddly(shape.outline, x, y);
  for (let h = 0; inside && h < shape.holes.length; h++) inside = !crossesOddly(shape.holes[h], x, y);
  return inside;
}

function crossesOddly(ring: Float64Array, x: number, y: number): boolean {
  let odd = false;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const above = ring[i + 1] > y;
    if (above === ring[j + 1] > y) continue;
    const dy = ring[j + 1] - ring[i + 1];
    if (x < ring[i] + ((ring[j] - ring[i]) * (y - ring[i + 1])) / dy) odd = !odd;
  }
  return odd;
}

/** A circle in the panel's plane, mm. */
export interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** A circle around a whole ring: about the middle of its bounding box, as far as its farthest corner. */
export function boundingCircle(ring: Float64Array): Circle {
  let [left, right, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < ring.length; i += 2) {
    left = Math.min(left, ring[i]);
    right = Math.max(right, ring[i]);
    low = Math.min(low, ring[i + 1]);
    high = Math.max(high, ring[i + 1]);
  }
  const x = (left + right) / 2;
  const y = (low + high) / 2;
  let squared = 0;
  for (let i = 0; i < ring.length; i += 2)
    squared = Math.max(squared, (ring[i] - x) ** 2 + (ring[i + 1] - y) ** 2);
  return { x, y, radius: Math.sqrt(squared) };
}
