import type { Polygon } from './polygon.js';

/**
 * A corner nearer than this to the other panel's plane, mm, counts as lying in it. Closed forms near a flat state
 * place a corner to about 1e-6 mm; at 0.01° between the planes this is 0.03 mm along the card.
 */
export const TOUCH = 5e-6;

/** Farthest points of one part within this of each other's height, mm, count as level. */
const LEVEL = 1e-9;

/**
 * Stretches of a line with a part of a panel beside each, five numbers a stretch: from, to (along the line), how far
 * the part rises above the line, and the part's farthest point x, y. Grows when needed and is used again.
 */
export interface Stretches {
  count: number;
  rows: Float64Array;
}

/** Numbers in one row of `Stretches`. */
export const ROW = 5;

export const stretches = (): Stretches => ({ count: 0, rows: new Float64Array(8 * ROW) });

/**
 * A line in a panel's plane, as six numbers p, q, r, u, v, w. Height above it is p x + q y + r, in any unit;
 * the place along it is u x + v y + w, in mm.
 */
export type CuttingLine = Float64Array;

const upper = stretches();
const lower = stretches();
const arcs = stretches();
let heights = new Float64Array(64);
let ends = new Float64Array(64);

/**
 * Cuts a panel by a line: fills `out` with the stretches of the line that have card on both sides, in order along it.
 *
 * Beside such a stretch lies one connected part of the panel above and one below. A row keeps the part with the
 * lesser reach: that reach, and its farthest point (where the far edge is level, the middle of that edge).
 *
 * A corner within TOUCH of the line lies on it, and belongs to neither side. So an edge along the line has card on
 * one side only and cuts nothing, even where the panel goes on beyond it.
 */
export function cutByLine(shape: Polygon, line: CuttingLine, out: Stretches): void {
  partsBeside(shape, line, 1, upper);
  partsBeside(shape, line, -1, lower);
  out.count = 0;
  let i = 0;
  let j = 0;
  while (i < upper.count && j < lower.count) {
    const a = i * ROW;
    const b = j * ROW;
    const from = Math.max(upper.rows[a], lower.rows[b]);
    const to = Math.min(upper.rows[a + 1], lower.rows[b + 1]);
    if (to > from) {
      const lesser = upper.rows[a + 2] <= lower.rows[b + 2];
      const rows = lesser ? upper.rows : lower.rows;
      const k = lesser ? a : b;
      add(out, from, to, rows[k + 2], rows[k + 3], rows[k + 4]);
    }
    if (upper.rows[a + 1] < lower.rows[b + 1]) i++;
    else j++;
  }
}

/**
 * Stretches of the line with card just above it (`side` 1) or just below (−1), each with the part that it bounds.
 *
 * Where the outline and the holes rise above the line they form arcs that start and end on it and don't cross, so
 * they nest like brackets. Their ends, sorted and taken in pairs, are the stretches with card above. The part above
 * a stretch is bounded by the innermost arc over it, so it reaches as high as that arc; holes within don't matter.
 */
function partsBeside(shape: Polygon, line: CuttingLine, side: number, out: Stretches): void {
  arcs.count = 0;
  out.count = 0;
  addArcs(shape.outline, line, side);
  for (let h = 0; h < shape.holes.length; h++) addArcs(shape.holes[h], line, side);
  sortEnds();
  for (let e = 0; e < 2 * arcs.count; e += 2) {
    if (!(ends[e + 1] > ends[e])) continue;
    const middle = (ends[e] + ends[e + 1]) / 2;
    let innermost = -1;
    let shortest = Infinity;
    for (let k = 0; k < arcs.count * ROW; k += ROW) {
      const length = arcs.rows[k + 1] - arcs.rows[k];
      if (arcs.rows[k] < middle && middle < arcs.rows[k + 1] && length < shortest) {
        innermost = k;
        shortest = length;
      }
    }
    if (innermost < 0) continue;
    const { rows } = arcs;
    add(out, ends[e], ends[e + 1], rows[innermost + 2], rows[innermost + 3], rows[innermost + 4]);
  }
}

/** Adds to `arcs` the arcs of one ring on one side of the line. A ring that never leaves that side has none. */
function addArcs(ring: Float64Array, line: CuttingLine, side: number): void {
  const n = ring.length >> 1;
  if (heights.length < n) heights = new Float64Array(2 * n);
  const above = heights;
  const p = line[0];
  const q = line[1];
  const r = line[2];
  let start = -1;
  for (let i = 0; i < n; i++) {
    const height = side * (p * ring[2 * i] + q * ring[2 * i + 1] + r);
    above[i] = Math.abs(height) <= TOUCH ? 0 : height;
    if (above[i] <= 0) start = i;
  }
  if (start < 0) return;

  let risen = false;
  let from = 0;
  let reach = 0;
  let first = 0;
  let last = 0;
  let before = start;
  for (let step = 1; step <= n; step++) {
    const i = start + step < n ? start + step : start + step - n;
    const height = above[i];
    if (height > 0) {
      if (!risen) {
        risen = true;
        from = meets(ring, line, before, i);
        reach = height;
        first = i;
        last = i;
      } else if (height > reach + LEVEL) {
        reach = height;
        first = i;
        last = i;
      } else if (height >= reach - LEVEL && last === before) {
        last = i;
      }
    } else if (risen) {
      risen = false;
      const to = meets(ring, line, before, i);
      const x = (ring[2 * first] + ring[2 * last]) / 2;
      const y = (ring[2 * first + 1] + ring[2 * last + 1]) / 2;
      add(arcs, Math.min(from, to), Math.max(from, to), reach, x, y);
    }
    before = i;
  }
}

/** Place along the line where the edge between two corners meets it. One is above, the other on it or below. */
function meets(ring: Float64Array, line: CuttingLine, i: number, j: number): number {
  const share = heights[i] / (heights[i] - heights[j]);
  const x = ring[2 * i] + share * (ring[2 * j] - ring[2 * i]);
  const y = ring[2 * i + 1] + share * (ring[2 * j + 1] - ring[2 * i + 1]);
  return line[3] * x + line[4] * y + line[5];
}

/** Fills `ends` with both ends of every arc, in order: by insertion, for there are seldom more than four. */
function sortEnds(): void {
  if (ends.length < 2 * arcs.count) ends = new Float64Array(4 * arcs.count);
  for (let e = 0; e < 2 * arcs.count; e++) {
    const value = arcs.rows[(e >> 1) * ROW + (e & 1)];
    let k = e;
    for (; k > 0 && ends[k - 1] > value; k--) ends[k] = ends[k - 1];
    ends[k] = value;
  }
}

function add(to: Stretches, from: number, end: number, reach: number, x: number, y: number): void {
  let k = to.count * ROW;
  if (k + ROW > to.rows.length) {
    const wider = new Float64Array(2 * to.rows.length);
    wider.set(to.rows);
    to.rows = wider;
  }
  to.rows[k++] = from;
  to.rows[k++] = end;
  to.rows[k++] = reach;
  to.rows[k++] = x;
  to.rows[k] = y;
  to.count++;
}
