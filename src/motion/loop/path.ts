import { zeros } from '../../geometry/numbers.js';
import { POSE } from '../pose.js';
import type { Knees } from './knees.js';
import type { Pull } from './pull.js';
import { moveBody, partOfMotion, rotationBetween } from './rigid.js';
import { Settler } from './settle.js';

/**
 * Takes the free panels along while the driven ones go from one frame to the next.
 *
 * It starts from where the panels were, gone on at the speed that they had, or at a speed that goes on changing as it
 * did, if that would have foretold the last part better. The result is believed when the panels moved little, or much as
 * at that speed; if not, the driven panels' way is halved and gone in smaller parts, down to 1/64 of it. A motion without
 * a break shrinks with the parts: even one that starts like a square root, as a straight limb's does, then moves by an
 * eighth at most in one part. What still leaps is a jump.
 *
 * All frames here are compact: one pose a slot, free panels first.
 */
export class Path {
  readonly #slots: number;
  readonly #pull: Pull;
  readonly #knees: Knees;
  readonly #loose: boolean;
  /** Where the panels stand. */
  readonly now: Float64Array;
  /** Where they stood in the frame before. */
  readonly first: Float64Array;
  /** Where the driven panels go; the rest of it is of no use. */
  readonly goal: Float64Array;
  /** The longest turn, in the smallest part of the last frame, that was not foretold: radians. */
  leap = 0;
  readonly #free: number;
  readonly #settler: Settler;
  /** Whether anything was pulled where it last settled. */
  #held = false;
  readonly #last: Float64Array;
  /** Shift of the middle and rotation vector of each free panel: for a whole frame, and by how much that grew in one; */
  readonly #speed: Float64Array;
  readonly #gain: Float64Array;
  /** as foretold for a part, and as it was in the last part. */
  readonly #foretold: Float64Array;
  readonly #change: Float64Array;
  #lastPart = 1;
  /** Whether the speed is known of one part only, or none: then not how it grows. */
  #fresh = true;
  /** Whether the gain is worth reckoning with. */
  #gaining = false;

  /** @param loose whether any joint has play */
  constructor(slots: number, pull: Pull, knees: Knees, loose: boolean) {
    this.#slots = slots;
    this.#pull = pull;
    this.#knees = knees;
    this.#loose = loose;
    this.#free = pull.free;
    this.#settler = new Settler(pull, loose);
    this.now = zeros(POSE * slots);
    this.first = zeros(POSE * slots);
    this.goal = zeros(POSE * slots);
    this.#last = zeros(POSE * slots);
    this.#speed = zeros(6 * this.#free);
    this.#gain = zeros(6 * this.#free);
    this.#foretold = zeros(6 * this.#free);
    this.#change = zeros(6 * this.#free);
  }

  /** Settles from the poses in `goal`, with nothing known of how they came about. */
  start(): void {
    const { first, goal } = this;
    const last = this.#last;
    const knees = this.#knees;
    first.set(goal);
    last.set(goal);
    this.#speed.fill(0);
    this.#gain.fill(0);
    this.#gaining = false;
    this.#fresh = true;
    this.leap = 0;
    knees.start(goal);
    this.#settleAt(1, 1);
    this.#rest();
  }

  /** Goes from `first` to `goal`, in as many parts as it takes. */
  follow(): void {
    const { first, now } = this;
    first.set(now);
    this.leap = 0;
    let done = 0;
    let part = 1;
    while (done < 1) {
      const to = done + part;
      const settled = this.#settleAt(to, part);
      this.#findChange();
      const believed = settled && this.#isAsBefore(part);
      if (!believed && part > LEAST_PART) {
        part /= 2;
        continue;
      }
      const leap = believed ? 0 : this.#longestTurn();
      if (leap > this.leap) this.leap = leap;
      this.#learn(part, leap > LEAST_JUMP);
      this.#rest();
      done = to;
      part = Math.min(2 * part, 1 - done);
    }
  }

  #rest(): void {
    this.#last.set(this.now);
    this.#held = this.#settler.pulled > SLACK;
    this.#knees.remember(this.now);
  }

  /** Settles at a part of the way from `first` to `goal`. */
  #settleAt(to: number, part: number): boolean {
    const { now } = this;
    const last = this.#last;
    const knees = this.#knees;
    const settler = this.#settler;
    this.#guess(to, part);
    if (!knees.anyInLine(now)) return settler.settle(now, last);
    // A limb in line that is pulled stays so; one that is pushed must give way, and round-off must not say where to.
    if (!settler.isUnsteady(now)) {
      const settled = settler.settle(now, last);
      if (knees.anyInLine(now) && !settler.isUnsteady(now)) return settled;
      this.#guess(to, part);
    }
    knees.bend(now);
    return settler.settle(now, last);
  }

  /** Places the driven panels at a part of their way, and the free ones where they should then be. */
  #guess(to: number, part: number): void {
    const { first, goal, now } = this;
    const last = this.#last;
    const speed = this.#speed;
    const gain = this.#gain;
    const foretold = this.#foretold;
    now.set(last);
    const lead = this.#gaining ? (part + this.#lastPart) / 2 : 0;
    for (let i = 0; i < foretold.length; i++) foretold[i] = part * (speed[i] + lead * gain[i]);
    for (let k = this.#free; k < this.#slots; k++) {
      if (to < 1) partOfMotion(first, goal, k, to, now);
      else for (let i = k * POSE; i < (k + 1) * POSE; i++) now[i] = goal[i];
    }
    // What lies slack has no speed of its own; what is tight, or held by the cost of its tilt, has.
    if (!this.#loose || this.#held) this.#goOn();
  }

  /** Moves the free panels on as foretold. */
  #goOn(): void {
    const { now } = this;
    const foretold = this.#foretold;
    for (let k = 0; k < this.#free; k++) {
      this.#findMiddle(now, k);
      for (let i = 0; i < 3; i++) {
        shift[i] = foretold[6 * k + i];
        rotation[i] = foretold[6 * k + 3 + i];
      }
      moveBody(now, k, middle, rotation, shift);
    }
  }

  /** The change of each free panel from `last` to `now`. */
  #findChange(): void {
    const { now } = this;
    const change = this.#change;
    const last = this.#last;
    for (let k = 0; k < this.#free; k++) {
      this.#findMiddle(last, k);
      for (let i = 0; i < 3; i++) change[6 * k + i] = -middle[i];
      this.#findMiddle(now, k);
      for (let i = 0; i < 3; i++) change[6 * k + i] += middle[i];
      rotationBetween(last, now, k, rotation);
      for (let i = 0; i < 3; i++) change[6 * k + 3 + i] = rotation[i];
    }
  }

  /** Takes the speed from the part just gone, and how it grew; a speed over a break would foretell nothing. */
  #learn(part: number, broken: boolean): void {
    const change = this.#change;
    const speed = this.#speed;
    const gain = this.#gain;
    const pull = this.#pull;
    const lead = (part + this.#lastPart) / 2;
    let steady = 0;
    let grown = 0;
    for (let i = 0; i < speed.length; i++) {
      const scale = i % 6 < 3 ? 1 : pull.reach[(i / 6) | 0];
      const missed = scale * (change[i] - part * speed[i]);
      const left = missed - scale * part * lead * gain[i];
      steady += missed * missed;
      grown += left * left;
      const now = broken ? 0 : change[i] / part;
      gain[i] = this.#fresh || broken ? 0 : (now - speed[i]) / lead;
      speed[i] = now;
    }
    this.#gaining = grown < WORTH * steady;
    this.#fresh = broken;
    this.#lastPart = part;
  }

  /** Whether every panel moved little, or much as at its speed: off by at most half its way. */
  #isAsBefore(part: number): boolean {
    const change = this.#change;
    const speed = this.#speed;
    const pull = this.#pull;
    for (let k = 0; k < this.#free; k++) {
      const reach = pull.reach[k];
      let off = 0;
      let way = 0;
      for (let i = 0; i < 6; i++) {
        const scale = i < 3 ? 1 : reach;
        const moved = scale * change[6 * k + i];
        const missed = moved - scale * part * speed[6 * k + i];
        way += moved * moved;
        off += missed * missed;
      }
      const little = LITTLE * reach;
      if (way > little * little && off > 0.25 * way) return false;
    }
    return true;
  }

  #longestTurn(): number {
    const change = this.#change;
    let most = 0;
    for (let i = 3; i < change.length; i += 6)
      most = Math.max(most, Math.sqrt(change[i] ** 2 + change[i + 1] ** 2 + change[i + 2] ** 2));
    return most;
  }

  /** Where the middle of a free panel's joints stands in the world. */
  #findMiddle(poses: Float64Array, k: number): void {
    const x = this.#pull.middle[2 * k];
    const y = this.#pull.middle[2 * k + 1];
    for (let row = 0; row < 3; row++) {
      const i = k * POSE + 4 * row;
      middle[row] = poses[i] * x + poses[i + 1] * y + poses[i + 3];
    }
  }
}

/** mm²: a cost below this comes of round-off. */
const SLACK = 1e-12;
/** The growing speed is reckoned with where it foretells ten times as well (squares of what was missed): else it is noise. */
const WORTH = 0.01;
/** The smallest part of a frame. */
const LEAST_PART = 1 / 64;
/** A turn, and a move over the reach, too small to be worth a closer look: 1°. */
const LITTLE = 0.0175;
/** A turn in the smallest part of a frame, radians, after which there is no going on at the same speed: 5°. */
export const LEAST_JUMP = 0.0873;

const rotation = new Float64Array(3);
const middle = new Float64Array(3);
const shift = new Float64Array(3);
