import type { Polygon } from './polygon.js';

/** Corners within this of each other's y, mm, stand at one height. */
export const SAME = 1e-9;

/**
 * The edges of shapes that lie in one plane, made ready for a line that sweeps up it. Edges that are level are left
 * out: the line never crosses them. Used again and again; grows when needed.
 */
export class Edges {
  /** How many there are. */
  count = 0;
  /** The heights of corners, lowest first, each once. */
  levels = new Float64Array(0);
  /** Indices into `levels` of each edge's lower and upper end. */
  low = new Int32Array(0);
  high = new Int32Array(0);
  /** The shape that it belongs to. */
  owner = new Int32Array(0);
  /** The sine of its angle with the level. */
  sine = new Float64Array(0);
  /** The edges in order of their lower ends. */
  byLow = new Int32Array(0);
  #xLow = new Float64Array(0);
  #slope = new Float64Array(0);
  #starts = new Int32Array(0);

  /** Where edge e is at a height. */
  xAt(e: number, y: number): number {
    return this.#xLow[e] + this.#slope[e] * (y - this.levels[this.low[e]]);
  }

  /** Takes the edges of the given shapes in place of those that were there. */
  gather(shapes: readonly Polygon[]): void {
    let corners = 0;
    for (const shape of shapes) {
      corners += shape.outline.length >> 1;
      for (const hole of shape.holes) corners += hole.length >> 1;
    }
    if (this.low.length < corners) this.#makeRoom(2 * corners);

    let c = 0;
    for (const shape of shapes) {
      c = this.#addLevels(shape.outline, c);
      for (const hole of shape.holes) c = this.#addLevels(hole, c);
    }
    const { levels } = this;
    levels.subarray(0, corners).sort();
    let count = 0;
    for (let k = 0; k < corners; k++) {
      if (count === 0 || levels[k] - levels[count - 1] > SAME) levels[count++] = levels[k];
    }

    this.count = 0;
    for (let s = 0; s < shapes.length; s++) {
      this.#addRing(shapes[s].outline, s, count);
      for (const hole of shapes[s].holes) this.#addRing(hole, s, count);
    }
    this.#sortByLow(count);
  }

  #makeRoom(size: number): void {
    this.levels = new Float64Array(size);
    this.low = new Int32Array(size);
    this.high = new Int32Array(size);
    this.owner = new Int32Array(size);
    this.sine = new Float64Array(size);
    this.byLow = new Int32Array(size);
    this.#xLow = new Float64Array(size);
    this.#slope = new Float64Array(size);
    this.#starts = new Int32Array(size + 1);
  }

  #addLevels(ring: Float64Array, at: number): number {
    for (let i = 1; i < ring.length; i += 2) this.levels[at++] = ring[i];
    return at;
  }

  #addRing(ring: Float64Array, shape: number, levelCount: number): void {
    const { levels, low, high } = this;
    let j = ring.length - 2;
    let before = levelOf(levels, levelCount, ring[j + 1]);
    for (let i = 0; i < ring.length; j = i, i += 2) {
      const here = levelOf(levels, levelCount, ring[i + 1]);
      if (here !== before) {
        const e = this.count++;
        const up = here > before;
        low[e] = up ? before : here;
        high[e] = up ? here : before;
        const run = up ? ring[i] - ring[j] : ring[j] - ring[i];
        const rise = levels[high[e]] - levels[low[e]];
        this.#xLow[e] = up ? ring[j] : ring[i];
        this.#slope[e] = run / rise;
        this.sine[e] = rise / Math.sqrt(run * run + rise * rise);
        this.owner[e] = shape;
      }
      before = here;
    }
  }

  /** Puts the edges in order of their lower ends into `byLow`, by counting how many start at each level. */
  #sortByLow(levelCount: number): void {
    const { low } = this;
    const starts = this.#starts;
    starts.fill(0, 0, levelCount + 1);
    for (let e = 0; e < this.count; e++) starts[low[e] + 1]++;
    for (let k = 0; k < levelCount; k++) starts[k + 1] += starts[k];
    for (let e = 0; e < this.count; e++) this.byLow[starts[low[e]]++] = e;
  }
}

/** Index of the last level at or under y. */
function levelOf(levels: Float64Array, count: number, y: number): number {
  let from = 0;
  let to = count - 1;
  while (from < to) {
    const middle = (from + to + 1) >> 1;
    if (levels[middle] <= y) from = middle;
    else to = middle - 1;
  }
  return from;
}
