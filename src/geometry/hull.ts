import { zeros } from './numbers.js';

/**
 * The convex hull of points in a plane: its corners, counter-clockwise, as x, y pairs. Fewer than three when all points
 * lie on one line.
 * Source: A. M. Andrew, Another efficient algorithm for convex hulls in two dimensions, 1979 (the monotone chain).
 */
export function convexHull(points: ArrayLike<number>): Float64Array {
  const order = Array.from({ length: points.length / 2 }, (_, k) => 2 * k);
  order.sort((a, b) => points[a] - points[b] || points[a + 1] - points[b + 1]);
  const hull: number[] = [];
  for (const way of [1, -1]) {
    const start = hull.length;
    for (let k = 0; k < order.length; k++) {
      const i = order[way === 1 ? k : order.length - 1 - k];
      while (hull.length >= start + 2 && !turnsLeft(points, hull[hull.length - 2], hull[hull.length - 1], i))
        hull.pop();
      hull.push(i);
    }
    // Each chain ends where the other begins.
    hull.pop();
  }
  const corners = zeros(2 * hull.length);
  for (let k = 0; k < hull.length; k++) {
    corners[2 * k] = points[hull[k]];
    corners[2 * k + 1] = points[hull[k] + 1];
  }
  return corners;
}

/** Whether a simple ring that runs counter-clockwise turns left at every corner. */
export function isConvex(ring: Float64Array): boolean {
  const n = ring.length;
  for (let i = 0; i < n; i += 2) if (!turnsLeft(ring, i, (i + 2) % n, (i + 4) % n)) return false;
  return true;
}

function turnsLeft(p: ArrayLike<number>, i: number, j: number, k: number): boolean {
  return (p[j] - p[i]) * (p[k + 1] - p[i + 1]) - (p[j + 1] - p[i + 1]) * (p[k] - p[i]) > 0;
}
