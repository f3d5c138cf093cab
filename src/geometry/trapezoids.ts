import { Edges, SAME } from './edges.js';
import type { Polygon } from './polygon.js';

/** One cell of a plane overlaid with shapes: a trapezoid between two edges and two heights. */
export interface Cell {
  /** How many shapes cover it, each of them all of it. */
  count: number;
  /** Their weights, summed. */
  weight: number;
  /** Its middle. */
  x: number;
  y: number;
  /** At half height, mm. */
  width: number;
  height: number;
  /** The lesser distance from the middle of one slanting side to the other side's line, mm. */
  across: number;
  /** How far its two slanting sides lean towards +x over half its height, mm. */
  leanLeft: number;
  leanRight: number;
}

const cell: Cell = {
  count: 0,
  weight: 0,
  x: 0,
  y: 0,
  width: 0,
  height: 0,
  across: 0,
  leanLeft: 0,
  leanRight: 0,
};

const edges = new Edges();
// The edges that run through the present band from left to right, the seat of each among them, and where each is at
// the band's foot and head.
let active = new Int32Array(0);
let atHead = new Int32Array(0);
let seat = new Int32Array(0);
let xFoot = new Float64Array(0);
let xHead = new Float64Array(0);
// What covers the gap to the right of each edge, and the open cell there: its right edge (−1 for none) and its foot.
let counts = new Int32Array(0);
let sums = new Float64Array(0);
let right = new Int32Array(0);
let since = new Float64Array(0);
// The crossings within a band: the height, and the two edges as they stand below it.
let crossingAt = new Float64Array(64);
let crossingLeft = new Int32Array(64);
let crossingRight = new Int32Array(64);
// For each shape, whether the walk along the foot of a band is in it.
let inside = new Uint8Array(64);

/**
 * Overlays shapes in one plane and visits every covered cell of the overlay once. The cell handed to `visit` is the
 * same object each time.
 *
 * A line sweeps up the plane. Between two neighbouring heights of corners every edge that is present runs right
 * through, and two of them cross there exactly when their order at the head differs from that at the foot. Each
 * crossing exchanges two neighbours, and only the cells that touch them change. Inside is by parity, so that rings may
 * run either way. Which edges cross is settled by their order alone, so round-off can't lose an exchange.
 * O(n m + c) for n corners, c crossings, m edges abreast.
 * Source: trapezoidal decomposition and plane sweep, de Berg et al., Computational Geometry, chapters 2 and 6.
 */
export function visitCells(
  shapes: readonly Polygon[],
  weights: ArrayLike<number>,
  visit: (cell: Readonly<Cell>) => void,
): void {
  edges.gather(shapes);
  const { levels, low, high, byLow } = edges;
  if (right.length < edges.count) makeRoom(2 * edges.count);
  // What an earlier overlay left must not decide which cells go on: sums would then add up in another order.
  right.fill(-1, 0, edges.count);
  counts.fill(0, 0, edges.count);
  sums.fill(0, 0, edges.count);
  if (inside.length < shapes.length) inside = new Uint8Array(2 * shapes.length);
  let abreast = 0;
  let next = 0;
  for (let band = 0; next < edges.count || abreast > 0; band++) {
    const foot = levels[band];
    let kept = 0;
    for (let k = 0; k < abreast; k++) {
      const e = active[k];
      if (high[e] > band) active[kept++] = e;
      else close(e, foot, visit);
    }
    abreast = kept;
    while (next < edges.count && low[byLow[next]] === band) active[abreast++] = byLow[next++];
    if (abreast === 0) continue;

    const head = levels[band + 1];
    place(abreast, foot, xFoot);
    place(abreast, head, xHead);
    sortAtFoot(abreast);
    changeCells(abreast, foot, weights, visit);
    exchangeAll(findCrossings(abreast, foot, head), abreast, foot, visit);
  }
}

function makeRoom(size: number): void {
  active = new Int32Array(size);
  atHead = new Int32Array(size);
  seat = new Int32Array(size);
  xFoot = new Float64Array(size);
  xHead = new Float64Array(size);
  counts = new Int32Array(size);
  sums = new Float64Array(size);
  right = new Int32Array(size);
  since = new Float64Array(size);
}

/** Puts into `x` where the active edges are at a height. */
function place(abreast: number, y: number, x: Float64Array): void {
  for (let k = 0; k < abreast; k++) x[active[k]] = edges.xAt(active[k], y);
}

/** Sorts the active edges by their place at the foot of the band, then at its head. By insertion: little changes. */
function sortAtFoot(abreast: number): void {
  const [order, foot, head] = [active, xFoot, xHead];
  for (let k = 1; k < abreast; k++) {
    const e = order[k];
    let at = k;
    for (; at > 0; at--) {
      const f = order[at - 1];
      if (foot[f] < foot[e] || (foot[f] === foot[e] && head[f] <= head[e])) break;
      order[at] = f;
    }
    order[at] = e;
  }
}

/** Walks along the foot of a band; closes the cells that don't go on above it, and opens those that start. */
function changeCells(
  abreast: number,
  y: number,
  weights: ArrayLike<number>,
  visit: (cell: Readonly<Cell>) => void,
): void {
  let count = 0;
  let sum = 0;
  for (let k = 0; k < abreast; k++) {
    const e = active[k];
    const shape = edges.owner[e];
    seat[e] = k;
    inside[shape] ^= 1;
    if (inside[shape] === 1) {
      count++;
      sum += weights[shape];
    } else {
      count--;
      sum = count === 0 ? 0 : sum - weights[shape]; // 0: sheds the round-off
    }
    const f = count === 0 ? -1 : active[k + 1];
    if (f === right[e] && count === counts[e] && Math.abs(sum - sums[e]) <= SAME) continue;
    close(e, y, visit);
    open(e, f, y, count, sum);
  }
}

/**
 * Lists the crossings in the band, lowest first; returns how many. Sorted by insertion from their order at the foot
 * to that at the head, each exchange of two edges is a crossing, at the share a/(a + b) of the band for the gaps
 * a at the foot and b at the head.
 */
function findCrossings(abreast: number, foot: number, head: number): number {
  let found = 0;
  for (let k = 0; k < abreast; k++) {
    const e = active[k];
    let at = k;
    for (; at > 0; at--) {
      const f = atHead[at - 1];
      const above = xHead[f] - xHead[e];
      if (!(above > 0)) break;
      const below = xFoot[e] - xFoot[f];
      addCrossing(found++, foot + ((head - foot) * below) / (below + above), f, e);
      atHead[at] = f;
    }
    atHead[at] = e;
  }
  return found;
}

/** Inserts a crossing at its height among those found so far. */
function addCrossing(found: number, y: number, left: number, rightEdge: number): void {
  if (found === crossingAt.length) {
    crossingAt = longer(crossingAt, new Float64Array(2 * found));
    crossingLeft = longer(crossingLeft, new Int32Array(2 * found));
    crossingRight = longer(crossingRight, new Int32Array(2 * found));
  }
  let k = found;
  for (; k > 0 && crossingAt[k - 1] > y; k--) moveCrossing(k - 1, k);
  crossingAt[k] = y;
  crossingLeft[k] = left;
  crossingRight[k] = rightEdge;
}

function longer<T extends Float64Array | Int32Array>(old: T, room: T): T {
  room.set(old);
  return room;
}

function moveCrossing(from: number, to: number): void {
  crossingAt[to] = crossingAt[from];
  crossingLeft[to] = crossingLeft[from];
  crossingRight[to] = crossingRight[from];
}

/**
 * Exchanges the edges of every crossing. Where several edges cross at one point, round-off may list them in an order
 * in which a pair is not yet side by side: then the next pair that is goes first. There always is one, since the
 * crossings still to come lead from the present order to that at the head.
 */
function exchangeAll(
  crossings: number,
  abreast: number,
  foot: number,
  visit: (cell: Readonly<Cell>) => void,
): void {
  let y = foot;
  for (let done = 0; done < crossings; done++) {
    let k = done;
    while (k < crossings - 1 && seat[crossingRight[k]] !== seat[crossingLeft[k]] + 1) k++;
    y = Math.max(y, crossingAt[k]);
    exchange(crossingLeft[k], crossingRight[k], abreast, y, visit);
    for (; k > done; k--) moveCrossing(k - 1, k);
  }
}

/** Lets two neighbours cross at a height: three cells end there and three start. */
function exchange(
  e: number,
  f: number,
  abreast: number,
  y: number,
  visit: (cell: Readonly<Cell>) => void,
): void {
  const k = seat[e];
  close(e, y, visit);
  close(f, y, visit);
  let count = 0;
  let sum = 0;
  if (k > 0) {
    const before = active[k - 1];
    close(before, y, visit);
    count = counts[before];
    sum = sums[before];
    open(before, f, y, count, sum);
  }
  // Between them lay what lies left of both, changed by e's shape; now it is changed by f's, unless that is the same.
  const same = edges.owner[e] === edges.owner[f];
  const middleCount = same ? counts[e] : count + counts[f] - counts[e];
  const middleSum = same ? sums[e] : sum + sums[f] - sums[e];
  active[k] = f;
  active[k + 1] = e;
  seat[f] = k;
  seat[e] = k + 1;
  open(e, k + 2 < abreast ? active[k + 2] : -1, y, counts[f], sums[f]);
  open(f, e, y, middleCount, middleSum);
}

/** Starts a cell between two edges at a height, if anything covers it. */
function open(e: number, f: number, y: number, count: number, sum: number): void {
  counts[e] = count;
  sums[e] = sum;
  right[e] = count === 0 ? -1 : f;
  since[e] = y;
}

/** Ends the cell to the right of an edge, if there is one, at a height, and visits it. */
function close(e: number, y: number, visit: (cell: Readonly<Cell>) => void): void {
  const f = right[e];
  if (f < 0) return;
  right[e] = -1;
  const middle = (since[e] + y) / 2;
  const x = edges.xAt(e, middle);
  const width = edges.xAt(f, middle) - x;
  if (!(width > 0)) return;
  cell.count = counts[e];
  cell.weight = sums[e];
  cell.x = x + width / 2;
  cell.y = middle;
  cell.width = width;
  cell.height = y - since[e];
  cell.across = width * Math.min(edges.sine[e], edges.sine[f]);
  cell.leanLeft = edges.xAt(e, y) - x;
  cell.leanRight = edges.xAt(f, y) - (x + width);
  visit(cell);
}
