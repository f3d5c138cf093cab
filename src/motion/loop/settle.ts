import { zeros } from '../../geometry/numbers.js';
import { POSE } from '../pose.js';
import { factor, solveFactored } from './cholesky.js';
import type { Pull } from './pull.js';
import { moveBody } from './rigid.js';

/**
 * Moves the free panels to where the joints are pulled least, by a damped Newton method: Levenberg's and Marquardt's
 * shift on the diagonal, raised until the step lowers the cost.
 *
 * Play bends the way to the least place (a waist slides round the rim of its hole): a good step along it first makes
 * the cost worse, and the step after it mends that (the effect that Maratos described). So one step uphill is let
 * pass, and taken back only when the next does not come out below where it started (Chamberlain and others' watchdog).
 *
 * To the cost is added ½ μ |move|², with `move` the way since the poses it last rested in and μ tiny. Where play, or
 * a missing joint, leaves a choice, the panels therefore end as near as can be to where they were: what is not pushed
 * stays (Moreau's catching-up for sweeping processes). Where the joints decide, it shifts the result by μ/σ² of the
 * move, σ the stiffness of the way it would go: 1e-10 of it against a joint, 1e-6 against a tilt.
 *
 * The cost of tilt is so slight that it can draw a loose panel a long way through a flat, crooked valley, where Newton's
 * steps creep. What still moves after some steps is therefore held by friction: μ is raised, and nearness measured
 * from where it has got to.
 */
export class Settler {
  readonly #pull: Pull;
  readonly #loose: boolean;
  /** What the joints cost where it came to rest, mm². */
  pulled = 0;
  readonly #factored: Float64Array;
  readonly #step: Float64Array;
  readonly #best: Float64Array;
  /** μ, and the poses from which nearness is measured. */
  #nearness = NEARNESS;
  readonly #rest: Float64Array;

  /** @param loose whether any joint has play: then it rests as soon as nothing is pulled */
  constructor(pull: Pull, loose: boolean) {
    this.#pull = pull;
    this.#loose = loose;
    const n = pull.unknowns;
    this.#factored = zeros(n * n);
    this.#step = zeros(n);
    this.#best = zeros(pull.free * POSE);
    this.#rest = zeros(pull.free * POSE);
  }

  /**
   * @param poses one compact frame, free panels first; theirs are the guess on entry and the result on return
   * @param rest the poses in which the free panels last rested
   * @returns whether it came to rest; if not, the result is the best found
   */
  settle(poses: Float64Array, rest: Float64Array): boolean {
    let damping = 0;
    let uphill = false;
    let lastLength = Infinity;
    this.#nearness = NEARNESS;
    copy(rest, this.#rest);
    copy(poses, this.#best);
    let cost = this.#measure(poses);
    if (this.#isSlack()) return true;
    for (let steps = 0; steps < MOST_STEPS; steps++) {
      if (steps === PATIENCE) {
        this.#nearness = FRICTION;
        copy(this.#best, this.#rest);
        copy(this.#best, poses);
        cost = this.#measure(poses);
        uphill = false;
      }
      damping = this.#findStep(damping);
      if (damping === Infinity) break;
      const length = this.#limitStep();
      const fall = this.#foretoldFall();
      this.#move(poses);
      const next = this.#measure(poses);
      const level = fall < LEVEL * cost + LEAST_COST || length < FINEST;
      if (next <= cost * (1 + ROUND_OFF)) {
        cost = next;
        copy(poses, this.#best);
        // Newton's error after a step is of the order of its square, over a length of the figure.
        const homing = damping === 0 && length < FINE && length < lastLength / 10;
        if (level || homing || this.#isSlack()) return true;
        damping = damping > 1e-2 ? damping / 30 : 0;
        uphill = false;
      } else if (!uphill && !level) {
        uphill = true;
      } else {
        copy(this.#best, poses);
        this.#measure(poses);
        if (!uphill) return true;
        damping = raised(damping);
        uphill = false;
      }
      lastLength = length;
    }
    copy(this.#best, poses);
    this.#measure(poses);
    return false;
  }

  /** Whether some move would lower the cost to second order: then no place to rest, however level it looks. */
  isUnsteady(poses: Float64Array): boolean {
    this.#pull.measure(poses);
    const { hessian, starts, unknowns } = this.#pull;
    return !factor(hessian, starts, unknowns, NEARNESS, this.#factored);
  }

  /** The step from where it was last measured, with no more damping than it takes; returns that, ∞ if none will do. */
  #findStep(damping: number): number {
    const { hessian, starts, unknowns, gradient } = this.#pull;
    let enough = damping;
    while (!factor(hessian, starts, unknowns, this.#nearness + enough, this.#factored)) {
      // Poses that are no numbers.
      if (enough > MOST_DAMPING) return Infinity;
      enough = raised(enough);
    }
    solveFactored(this.#factored, starts, unknowns, gradient, this.#step);
    return enough;
  }

  /** By how much the cost would fall along the step, were it a plane. */
  #foretoldFall(): number {
    let sum = 0;
    for (let i = 0; i < this.#step.length; i++) sum += this.#step[i] * this.#pull.gradient[i];
    return sum;
  }

  #isSlack(): boolean {
    return this.#loose && this.pulled < SLACK;
  }

  /** The pull's cost, gradient and Hessian, with those of nearness but for μ on the diagonal. */
  #measure(poses: Float64Array): number {
    const pull = this.#pull;
    const rest = this.#rest;
    const nearness = this.#nearness;
    const { gradient, centre, middle, reach } = pull;
    let away = 0;
    const cost = pull.measure(poses);
    this.pulled = cost;
    for (let k = 0; k < pull.free; k++) {
      const i = k * POSE;
      const g = 6 * k;
      for (let row = 0; row < 3; row++) {
        const r = i + 4 * row;
        const was = rest[r] * middle[2 * k] + rest[r + 1] * middle[2 * k + 1] + rest[r + 3];
        const d = centre[3 * k + row] - was;
        gradient[g + row] += nearness * d;
        away += d * d;
      }
      // ½Σ|column − column at rest|² = 3 − trace = 2(1 − cos θ), near θ²; half its gradient by w is ½Σ rest × column.
      const weight = 0.5 * nearness * reach[k];
      let chord = 0;
      for (let c = i; c < i + 3; c++) {
        const x = poses[c];
        const y = poses[c + 4];
        const z = poses[c + 8];
        const u = rest[c];
        const v = rest[c + 4];
        const t = rest[c + 8];
        gradient[g + 3] += weight * (v * z - t * y);
        gradient[g + 4] += weight * (t * x - u * z);
        gradient[g + 5] += weight * (u * y - v * x);
        chord += (x - u) * (x - u) + (y - v) * (y - v) + (z - t) * (z - t);
      }
      away += 0.5 * reach[k] * reach[k] * chord;
    }
    return cost + 0.5 * nearness * away;
  }

  /** Shortens the step where a panel would move by more than a part of its reach; returns the longest such move, mm. */
  #limitStep(): number {
    const step = this.#step;
    const pull = this.#pull;
    let longest = 0;
    let shrink = 1;
    for (let k = 0; k < pull.free; k++) {
      const g = 6 * k;
      let squared = 0;
      for (let i = g; i < g + 6; i++) squared += step[i] * step[i];
      const length = Math.sqrt(squared);
      if (length > longest) longest = length;
      const most = LONGEST_STEP * pull.reach[k];
      if (length * shrink > most) shrink = most / length;
    }
    if (shrink < 1) for (let i = 0; i < step.length; i++) step[i] *= shrink;
    return longest * shrink;
  }

  #move(poses: Float64Array): void {
    const step = this.#step;
    const pull = this.#pull;
    for (let k = 0; k < pull.free; k++) {
      const g = 6 * k;
      for (let i = 0; i < 3; i++) {
        about[i] = pull.centre[3 * k + i];
        shift[i] = -step[g + i];
        rotation[i] = -step[g + 3 + i] / pull.reach[k];
      }
      moveBody(poses, k, about, rotation, shift);
    }
  }
}

/** μ: what a move costs beside a gap. */
const NEARNESS = 1e-10;
/** μ for what still moves after so many steps. */
const FRICTION = 1e-5;
const PATIENCE = 12;
const MOST_STEPS = 60;
/** A step this short, mm, ends it in any case; one below FINE does while Newton's steps shrink as they should. */
const FINEST = 1e-9;
const FINE = 1e-4;
/** Of a panel's reach. */
const LONGEST_STEP = 0.3;
/** A fall below this part of the cost, or below this cost, mm², is none: a gap of some 1e-8 mm. */
const LEVEL = 1e-12;
const LEAST_COST = 1e-17;
/** Costs nearer than this part of them are one. */
const ROUND_OFF = 1e-15;
/** mm²: nothing is pulled, but for round-off. */
const SLACK = 1e-16;

const MOST_DAMPING = 1e12;

/** Copies as many poses as both hold: at least those of the free panels. */
function copy(from: Float64Array, to: Float64Array): void {
  const size = Math.min(from.length, to.length);
  for (let i = 0; i < size; i++) to[i] = from[i];
}

const raised = (damping: number) => Math.max(1e-4, damping * 10);

const about = new Float64Array(3);
const rotation = new Float64Array(3);
const shift = new Float64Array(3);
