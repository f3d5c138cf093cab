import { CannotBuild } from './cannot-build.js';
import type { LoopJoint } from './loop/joints.js';
import { type KneeBend, Knees } from './loop/knees.js';
import { LEAST_JUMP, Path } from './loop/path.js';
import { Pull } from './loop/pull.js';
import { rotationBetween } from './loop/rigid.js';
import { tiesOf } from './loop/ties.js';
import { POSE } from './pose.js';

export type { HingedCrease, LoopJoint, Pivot, Point, Slide } from './loop/joints.js';
export type { KneeBend } from './loop/knees.js';

/**
 * A closed chain of panels: some are driven (the rest of the figure places them), the others are free and follow,
 * held by joints that may have play. Where the joints cannot all close, a gap stays and is reported.
 *
 * Angles are in radians, lengths in mm. Nothing is allocated in `solve`.
 *
 * @example a crank (panel 1) on the page (panel 0), a link (2) and a rocker (3)
 * const loop = new Loop([2, 3], [
 *   { kind: 'pivot', a: 1, b: 2, pointA: [40, 0], pointB: [0, 0], play: 0.2 },
 *   { kind: 'pivot', a: 2, b: 3, pointA: [120, 0], pointB: [80, 0], play: 0.2 },
 *   { kind: 'pivot', a: 3, b: 0, pointA: [0, 0], pointB: [100, 0], play: 0.2 },
 * ]);
 * loop.start(open); // all four as drawn
 * loop.solve(poses); // 0 and 1 placed at the next page angle
 */
export class Loop {
  readonly #joints: readonly LoopJoint[];
  /**
   * How far each joint stands apart beyond its play, summed over the joints, mm (a crease: at its worse end). Like tilt
   * and lift it is read off the poses as they are written: should the solver run out of steps on its way through what
   * play and tilt leave open, they still tell all that is amiss there, and at most too much.
   */
  gap = 0;
  /** The greatest angle by which a pivot's two faces are out of parallel, 0 to π. */
  tilt = 0;
  /** How far a crease is lifted off, at its worse end, mm. */
  lift = 0;
  /**
   * How far a free panel turned in 1/64 of the way from the frame before, where that was more than 5°, more than half
   * of all that the frame turned, and not foretold by the motion so far; else 0.
   */
  jump = 0;

  readonly #slots: Int32Array;
  readonly #free: number;
  readonly #pull: Pull;
  readonly #knees: Knees;
  readonly #path: Path;

  /**
   * @param free the panels to be placed, by index
   * @param joints between any two panels; at least one on each free panel
   * @param bends which way limbs bend that are drawn straight
   * @throws CannotBuild when a joint, or a bend, makes no sense
   */
  constructor(free: readonly number[], joints: readonly LoopJoint[], bends: readonly KneeBend[] = []) {
    this.#joints = joints;
    const slotOf = new Map<number, number>();
    for (const panel of free) {
      if (slotOf.has(panel)) throw new CannotBuild(`panel ${panel} is free twice`);
      if (!joints.some((j) => j.a === panel || j.b === panel))
        throw new CannotBuild(`panel ${panel} of the loop hangs on no joint`);
      slotOf.set(panel, slotOf.size);
    }
    this.#free = slotOf.size;
    for (const { a, b } of joints)
      for (const panel of [a, b]) if (!slotOf.has(panel)) slotOf.set(panel, slotOf.size);
    this.#slots = Int32Array.from(slotOf.keys());
    this.#pull = new Pull(this.#free, tiesOf(joints, slotOf));
    this.#knees = new Knees(joints, slotOf, this.#free, bends);
    const loose = joints.some((j) => j.kind !== 'crease' && j.play > 0);
    this.#path = new Path(this.#slots.length, this.#pull, this.#knees, loose);
  }

  /** Joints, by index, at which a limb was drawn straight and no bend says which way it goes: +1 is taken. */
  get undecided(): readonly number[] {
    return this.#knees.undecided;
  }

  /**
   * Takes the figure as drawn, open, and settles the free panels where the joints want them. To be called once, first:
   * which way the faces of each pivot look is taken from here.
   */
  start(poses: Float64Array): void {
    this.#take(poses);
    this.#pull.faceAs(this.#path.goal);
    this.#startPath(poses);
  }

  /**
   * Places the free panels at the next page angle.
   * @param poses one frame, with the driven panels at that page angle and the free ones as in the frame before;
   * where those are not what this loop wrote last, it starts anew from them
   */
  solve(poses: Float64Array): void {
    const path = this.#path;
    this.#take(poses);
    for (let i = 0; i < this.#free * POSE; i++) {
      if (path.goal[i] !== path.now[i]) {
        this.#startPath(poses);
        return;
      }
    }
    path.follow();
    this.#finish(poses);
  }

  #startPath(poses: Float64Array): void {
    this.#path.start();
    this.#finish(poses);
  }

  #take(poses: Float64Array): void {
    for (let k = 0; k < this.#slots.length; k++) {
      const from = this.#slots[k] * POSE;
      for (let i = 0; i < POSE; i++) this.#path.goal[k * POSE + i] = poses[from + i];
    }
  }

  /** Writes the free panels' poses, and what there is to report of them. */
  #finish(poses: Float64Array): void {
    const pull = this.#pull;
    const joints = this.#joints;
    const path = this.#path;
    const { now } = path;
    let farthest = 0;
    for (let k = 0; k < this.#free; k++) {
      const to = this.#slots[k] * POSE;
      for (let i = 0; i < POSE; i++) poses[to + i] = now[k * POSE + i];
      rotationBetween(path.first, now, k, rotation);
      const turn = Math.sqrt(rotation[0] ** 2 + rotation[1] ** 2 + rotation[2] ** 2);
      if (turn > farthest) farthest = turn;
    }
    this.jump = path.leap > LEAST_JUMP && path.leap > farthest / 2 ? path.leap : 0;
    const { ties } = pull;
    this.gap = 0;
    this.lift = 0;
    for (let k = 0; k < ties.count; ) {
      const index = ties.joint[k];
      let apart = 0;
      for (; k < ties.count && ties.joint[k] === index; k++) apart = Math.max(apart, pull.gap(now, k));
      this.gap += apart;
      const joint = joints[index];
      if (joint.kind === 'crease') this.lift = Math.max(this.lift, apart);
    }
    this.tilt = 0;
    for (let k = 0; k < ties.tilts; k++) this.tilt = Math.max(this.tilt, pull.tilt(now, k));
  }
}

const rotation = new Float64Array(3);
