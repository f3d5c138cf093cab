import { noWorse } from './pareto.js';

/**
 * Hypervolume: how much of the space between a front and a reference point the front dominates, all objectives to be
 * minimised. The one measure of a whole front that never grows when the front gets worse (E. Zitzler, L. Thiele 1998).
 */

/** Area between a staircase of points and the corner (rx, ry). */
function area(points: readonly ArrayLike<number>[], rx: number, ry: number): number {
  const order = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  let total = 0;
  let floor = ry;
  for (const p of order) {
    if (p[1] >= floor) continue;
    total += (rx - p[0]) * (floor - p[1]);
    floor = p[1];
  }
  return total;
}

/**
 * Volume, by sweeping up the third objective over a staircase in the first two (C. M. Fonseca, L. Paquete,
 * M. López-Ibáñez 2006). The staircase is kept in arrays of ascending x and descending y.
 */
function volume(points: readonly ArrayLike<number>[], ref: ArrayLike<number>): number {
  const order = [...points].sort((a, b) => a[2] - b[2]);
  const xs: number[] = [];
  const ys: number[] = [];
  let swept = 0;
  let total = 0;
  for (let i = 0; i < order.length; i++) {
    const x = order[i][0];
    const y = order[i][1];
    let from = 0;
    for (let high = xs.length; from < high; ) {
      const middle = (from + high) >>> 1;
      if (xs[middle] < x) from = middle + 1;
      else high = middle;
    }
    const above = from > 0 ? ys[from - 1] : ref[1];
    const hidden = above <= y || (from < xs.length && xs[from] === x && ys[from] <= y);
    if (!hidden) {
      // What the new step adds: its columns, each from y up to the old staircase.
      let to = from;
      let left = x;
      let top = above;
      while (to < xs.length && ys[to] >= y) {
        swept += (xs[to] - left) * (top - y);
        left = xs[to];
        top = ys[to];
        to++;
      }
      swept += ((to < xs.length ? xs[to] : ref[0]) - left) * (top - y);
      xs.splice(from, to - from, x);
      ys.splice(from, to - from, y);
    }
    const next = i + 1 < order.length ? order[i + 1][2] : ref[2];
    total += swept * (next - order[i][2]);
  }
  return total;
}

/** Drops every point that another makes useless in the first m objectives. */
function useful(points: readonly Float64Array[], m: number): Float64Array[] {
  const kept: Float64Array[] = [];
  for (const p of points) {
    if (kept.some((q) => noWorse(q, p, m))) continue;
    let n = 0;
    for (const q of kept) if (!noWorse(p, q, m)) kept[n++] = q;
    kept.length = n;
    kept.push(p);
  }
  return kept;
}

/**
 * In m objectives, by exclusive parts: a point adds its own box less what the points after it take of that box
 * (L. While, L. Bradstreet, L. Barone, "A fast way of calculating exact hypervolumes", IEEE Transactions on Evolutionary
 * Computation 16(1), 2012). Worst in the last objective first: all later points reach deeper in it than the box does, so
 * the part taken is a hypervolume in m - 1 objectives times the box's last side.
 */
function slice(points: readonly Float64Array[], ref: Float64Array, m: number): number {
  if (m === 2) return area(points, ref[0], ref[1]);
  if (m === 3) return volume(points, ref);
  const order = [...points].sort((a, b) => b[m - 1] - a[m - 1]);
  let total = 0;
  for (let i = 0; i < order.length; i++) {
    const p = order[i];
    let box = 1;
    for (let j = 0; j < m - 1; j++) box *= ref[j] - p[j];
    const others = order.slice(i + 1).map((q) => {
      const limited = new Float64Array(m - 1);
      for (let j = 0; j < m - 1; j++) limited[j] = Math.max(p[j], q[j]);
      return limited;
    });
    total += (ref[m - 1] - p[m - 1]) * (box - slice(useful(others, m - 1), ref, m - 1));
  }
  return total;
}

/**
 * Exact hypervolume of a set of points, in the product of the objectives' units.
 *
 * @param points one vector of objectives each, to be minimised; dominated ones and ones beyond the reference add nothing
 * @param reference the corner that bounds the space, worse than all points of interest
 * @returns 0 for no points. Time grows steeply from four objectives on: fronts of hundreds are fine there.
 * @throws RangeError where a point and the reference differ in length
 * @example hypervolume([[1, 3], [2, 2], [3, 1]], [4, 4]) // 6
 */
export function hypervolume(points: readonly ArrayLike<number>[], reference: ArrayLike<number>): number {
  const m = reference.length;
  const inside: Float64Array[] = [];
  for (const p of points) {
    if (p.length !== m) throw new RangeError('Points and reference must have equally many objectives.');
    const row = Float64Array.from(p);
    if (row.every((value, j) => value < reference[j])) inside.push(row);
  }
  if (inside.length === 0) return 0;
  if (m === 1) return reference[0] - Math.min(...inside.map((p) => p[0]));
  return slice(m > 3 ? useful(inside, m) : inside, Float64Array.from(reference), m);
}
