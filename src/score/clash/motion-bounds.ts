import type { Opening } from '../../motion/opening.js';
import { POSE } from '../../motion/pose.js';
import type { Body } from './bodies.js';

/** Numbers in one row of bounds. */
export const BOUND = 4;
/** Places in a row: how far the middle of a body moves in one frame, mm, and how far it turns, radians; … */
export const SPEED = 0;
export const TURN = 1;
/** … and how much these two change from one frame to the next. */
export const BEND = 2;
export const TWIST = 3;

/** Levels of spans: a span of level 5 is 32 frames long, 64° in steps of 2°. */
export const TOP = 5;

/**
 * How fast each body moves over each span of an opening. A span of level l and number q runs from frame q · 2^l to
 * frame (q + 1) · 2^l, or to the last.
 *
 * A point at distance r from the middle of its body's circle, whose coordinates x(t) are counted in frames, keeps to
 * its chord as |x − chord| ≤ s² max|x″| / 8 over a span of s frames (the error of linear interpolation; any textbook of
 * numerical analysis), with |x″| ≤ bend + r · twist. Second differences of the frames stand for x″. Where they change
 * from frame to frame, as beside a flat state where a motion can begin like a square root, three times the change is
 * added: for √t over the first frame that gives (0.59 + 3 · 0.49) / 8 = 0.26, and the true error is 0.25.
 */
export class MotionBounds {
  #rows = new Float64Array(0);
  readonly #starts = new Int32Array(TOP + 1);
  #nodes = 0;
  #bends = new Float64Array(0);
  #twists = new Float64Array(0);

  run(bodies: readonly Body[], opening: Opening, panels: number): void {
    const spans = Math.max(1, opening.count - 1);
    let nodes = 0;
    for (let level = 0; level <= TOP; level++) {
      this.#starts[level] = nodes;
      nodes += ((spans - 1) >> level) + 1;
    }
    this.#nodes = nodes;
    if (this.#rows.length < bodies.length * nodes * BOUND)
      this.#rows = new Float64Array(bodies.length * nodes * BOUND);
    if (this.#bends.length < opening.count) {
      this.#bends = new Float64Array(opening.count);
      this.#twists = new Float64Array(opening.count);
    }
    for (let k = 0; k < bodies.length; k++) {
      this.#measure(bodies[k], opening, panels * POSE, k * nodes * BOUND);
      this.#gather(spans, k * nodes);
    }
  }

  /** Where the row of a body's bounds over a span begins in `values`. */
  row(body: number, level: number, span: number): number {
    return (body * this.#nodes + this.#starts[level] + span) * BOUND;
  }

  get values(): Float64Array {
    return this.#rows;
  }

  /** Fills the rows of one body over single frames. */
  #measure({ panel, x, y }: Body, opening: Opening, stride: number, at: number): void {
    const rows = this.#rows;
    const bends = this.#bends;
    const twists = this.#twists;
    const { poses, count } = opening;
    for (let frame = 0; frame + 1 < count; frame++) {
      const i = frame * stride + panel * POSE;
      const j = i + stride;
      const row = at + frame * BOUND;
      let moved = 0;
      let turned = 0;
      let bend = 0;
      let twist = 0;
      for (let axis = 0; axis < POSE; axis += 4) {
        const dx = poses[j + axis] - poses[i + axis];
        const dy = poses[j + axis + 1] - poses[i + axis + 1];
        const dn = poses[j + axis + 2] - poses[i + axis + 2];
        const dc = x * dx + y * dy + poses[j + axis + 3] - poses[i + axis + 3];
        moved += dc * dc;
        turned += dx * dx + dy * dy + dn * dn;
        if (frame === 0) continue;
        const b = i - stride + axis;
        const ddx = dx - poses[i + axis] + poses[b];
        const ddy = dy - poses[i + axis + 1] + poses[b + 1];
        const ddn = dn - poses[i + axis + 2] + poses[b + 2];
        const ddc = dc - (x * (poses[i + axis] - poses[b]) + y * (poses[i + axis + 1] - poses[b + 1]));
        const whole = ddc - (poses[i + axis + 3] - poses[b + 3]);
        bend += whole * whole;
        twist += ddx * ddx + ddy * ddy + ddn * ddn;
      }
      rows[row + SPEED] = Math.sqrt(moved);
      // A turn by θ changes a matrix by 2√2 sin(θ/2) in all, and a unit vector by 2 sin(θ/2) at most.
      rows[row + TURN] = Math.sqrt(turned / 2);
      bends[frame] = Math.sqrt(bend);
      twists[frame] = Math.sqrt(twist);
    }
    for (let frame = 0; frame + 1 < count; frame++) {
      const row = at + frame * BOUND;
      const bend = boundOver(bends, frame, count, rows[row + SPEED]);
      const twist = boundOver(twists, frame, count, rows[row + TURN]);
      rows[row + BEND] = bend;
      rows[row + TWIST] = twist;
      // At an end of the frame it may be faster than on the whole.
      rows[row + SPEED] += bend / 2;
      rows[row + TURN] += twist / 2;
    }
  }

  /** Each longer span has the greatest bounds of its two halves. */
  #gather(spans: number, first: number): void {
    const rows = this.#rows;
    const starts = this.#starts;
    for (let level = 1; level <= TOP; level++) {
      const count = ((spans - 1) >> level) + 1;
      const below = ((spans - 1) >> (level - 1)) + 1;
      for (let span = 0; span < count; span++) {
        const row = (first + starts[level] + span) * BOUND;
        const left = (first + starts[level - 1] + 2 * span) * BOUND;
        const right = 2 * span + 1 < below ? left + BOUND : left;
        for (let q = 0; q < BOUND; q++) {
          const a = rows[left + q];
          const b = rows[right + q];
          rows[row + q] = Math.max(a, b);
        }
      }
    }
  }
}

/**
 * A bound of the second difference between two frames, from those at frames nearby (there is none at an end).
 * @param change how much the value itself changes between the two frames
 */
export function boundOver(differences: Float64Array, frame: number, count: number, change: number): number {
  const from = Math.max(frame, 1);
  const to = Math.min(frame + 1, count - 2);
  // Two frames alone tell nothing of how the motion bends: it may do all of it at either end.
  if (from > to) return 4 * change;
  let most = 0;
  for (let f = from; f <= to; f++) if (differences[f] > most) most = differences[f];
  let uneven = 0;
  for (let f = Math.max(1, from - 1); f < Math.min(count - 2, to + 1); f++) {
    const change = Math.abs(differences[f + 1] - differences[f]);
    if (change > uneven) uneven = change;
  }
  return most + 3 * uneven;
}
