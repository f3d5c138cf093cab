import type { Polygon } from './polygon.js';
import { visitCells } from './trapezoids.js';

/**
 * Overlaps narrower than this, mm, are no place for card to pile up: creases that lie on each other when shut come
 * out a hair beside each other. A place counts where some trapezoid of the overlay is this tall and this far across.
 */
export const SLIVER = 0.02;

/** Thicknesses within this of each other, mm, are the same sum of sheets in another order. */
const SAME_SUM = 1e-9;

/** The pile of card when shut. */
export interface Pile {
  /** Greatest summed thickness over any one place, mm. */
  readonly thickness: number;
  /** In the largest trapezoid that is so thick. */
  readonly x: number;
  readonly y: number;
  /** How much is so thick, mm², less slivers. */
  readonly area: number;
  /** How much any card covers, mm², slivers included. */
  readonly covered: number;
}

/**
 * Where shapes that lie on each other in one plane are thickest, and how thick. They may face either way.
 * `undefined` when they cover no place wider than a sliver.
 *
 * @example
 * const square = { outline: Float64Array.of(0, 0, 10, 0, 10, 10, 0, 10), holes: [] };
 * const corner = { outline: Float64Array.of(5, 5, 15, 5, 15, 15, 5, 15), holes: [] };
 * pile([square, corner], [0.3, 0.2]); // thickness 0.5 at 7.5, 7.5; area 25; covered 175
 */
export function pile(shapes: readonly Polygon[], thicknesses: ArrayLike<number>): Pile | undefined {
  const found = { thickness: 0, x: 0, y: 0, area: 0, covered: 0 };
  let largest = 0;
  visitCells(shapes, thicknesses, (cell) => {
    const size = cell.width * cell.height;
    found.covered += size;
    if (cell.height < SLIVER || cell.across < SLIVER || cell.weight < found.thickness - SAME_SUM) return;
    if (cell.weight > found.thickness + SAME_SUM) {
      found.thickness = cell.weight;
      found.area = 0;
      largest = 0;
    }
    found.area += size;
    if (size > largest) {
      largest = size;
      found.x = cell.x;
      found.y = cell.y;
    }
  });
  return largest > 0 ? found : undefined;
}

const NO_WEIGHTS = [0, 0];

/** Area in mm² that two shapes in one plane have in common, slivers included. They may face either way. */
export function overlapArea(a: Polygon, b: Polygon): number {
  if (apart(a.outline, b.outline, 0) || apart(a.outline, b.outline, 1)) return 0;
  let area = 0;
  visitCells([a, b], NO_WEIGHTS, (cell) => {
    if (cell.count === 2) area += cell.width * cell.height;
  });
  return area;
}

/** Whether two rings have no x (`axis` 0) or no y (1) in common. */
function apart(a: Float64Array, b: Float64Array, axis: 0 | 1): boolean {
  let [leastA, mostA, leastB, mostB] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = axis; i < a.length; i += 2) {
    if (a[i] < leastA) leastA = a[i];
    if (a[i] > mostA) mostA = a[i];
  }
  for (let i = axis; i < b.length; i += 2) {
    if (b[i] < leastB) leastB = b[i];
    if (b[i] > mostB) mostB = b[i];
  }
  return mostA <= leastB || mostB <= leastA;
}
