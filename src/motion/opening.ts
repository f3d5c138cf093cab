import { type Assembly, placePages } from './assembly.js';
import { partOfMotion, turnBetween } from './loop/rigid.js';
import type { Meeting } from './misfit.js';
import { POSE } from './pose.js';

const RADIANS = Math.PI / 180;
/** A link that turns by more than this from one frame to the next may have snapped over, radians: 20°. */
const SNAPS = 0.35;

/** Where a figure cannot go on. */
export interface Lock {
  /** Degrees, to 0.01°: the least page angle that the figure reaches. */
  readonly pageAngle: number;
  readonly part: string;
  /** What does not meet beyond it. */
  readonly at: Meeting;
}

/**
 * The motion of an assembly from the open page to the shut one: the pose of every panel at every page angle.
 * One Opening serves any number of candidates; its arrays grow when needed and are used again.
 */
export class Opening {
  /** Number of frames reached: fewer than asked where the figure locks. */
  count = 0;
  /** Page angle of each frame, degrees, falling from 180. */
  pageAngles = new Float64Array(0);
  /** Poses: frame after frame, POSE numbers a panel. */
  poses = new Float64Array(0);
  /** Misfits: frame after frame, one for each entry of the assembly's `misfits`, in its unit. */
  misfits = new Float64Array(0);
  lock: Lock | null = null;
  #assembly!: Assembly;
  #views: Float64Array[] = [];
  #misfitViews: Float64Array[] = [];
  #between = new Float64Array(0);
  #betweenMisfits = new Float64Array(0);
  #shape = '';

  /**
   * Opens the assembly at page angles 180, 180 − step, … 0.
   * @param step degrees; 180 must be a whole number of steps
   */
  run(assembly: Assembly, step: number): void {
    this.#assembly = assembly;
    this.lock = null;
    const frames = Math.round(180 / step) + 1;
    this.#makeRoom(frames, assembly.panels.length, assembly.misfits.length);
    for (let frame = 0; frame < frames; frame++) {
      const pageAngle = frame === frames - 1 ? 0 : 180 - frame * step;
      this.pageAngles[frame] = pageAngle;
      const poses = this.#views[frame];
      // Each frame starts from the one before, for the steps that solve by improving on it.
      poses.set(frame === 0 ? assembly.open : this.#views[frame - 1]);
      const stuck = this.place(pageAngle, poses, this.#misfitViews[frame]);
      if (stuck >= 0) {
        this.count = frame;
        this.lock = this.#findLock(frame, stuck);
        return;
      }
    }
    this.count = frames;
  }

  /** The poses of one frame. */
  frame(index: number): Float64Array {
    return this.#views[index];
  }

  /** The misfits of one frame. */
  misfitsAt(index: number): Float64Array {
    return this.#misfitViews[index];
  }

  /**
   * The poses at any page angle that the figure reaches: a frame, or worked out from the frames on either side of it. What is
   * given back is overwritten by the next call.
   */
  at(pageAngle: number): Float64Array {
    let frame = 0;
    while (frame + 1 < this.count && this.pageAngles[frame + 1] >= pageAngle) frame++;
    if (this.pageAngles[frame] === pageAngle) return this.#views[frame];
    this.#between.set(this.#views[frame]);
    this.#foretell(frame, pageAngle);
    this.place(pageAngle, this.#between, this.#betweenMisfits);
    return this.#between;
  }

  /**
   * Moves the links of chains to where they are on an even way from one frame to the next: their loop settles from there in a
   * few steps. Not where one turns far, and may snap over in between.
   */
  #foretell(frame: number, pageAngle: number): void {
    if (frame + 1 >= this.count) return;
    const [from, to] = [this.#views[frame], this.#views[frame + 1]];
    const share =
      (this.pageAngles[frame] - pageAngle) / (this.pageAngles[frame] - this.pageAngles[frame + 1]);
    for (const { panels } of this.#assembly.chains.closed) {
      if (panels.some((panel) => turnBetween(from, to, panel) > SNAPS)) continue;
      for (const panel of panels) partOfMotion(from, to, panel, share, this.#between);
    }
  }

  /**
   * Places every panel at any page angle (degrees) into `poses`, which must hold the poses of a nearby page angle.
   * @returns the index of a misfit that locks there, or −1
   */
  place(pageAngle: number, poses: Float64Array, misfits: Float64Array): number {
    placePages(poses, pageAngle * RADIANS);
    const { steps, misfits: kinds } = this.#assembly;
    for (const step of steps) step.place(poses, misfits);
    for (let i = 0; i < kinds.length; i++) {
      // What is no number fits nowhere.
      const { locksBeyond } = kinds[i];
      if (locksBeyond === null ? Number.isNaN(misfits[i]) : !(misfits[i] <= locksBeyond)) return i;
    }
    return -1;
  }

  /** Halves the step in which the figure stuck until the page angle is known to 0.01°. */
  #findLock(frame: number, stuck: number): Lock {
    const { misfits } = this.#assembly;
    const open = frame === 0;
    let free = open ? 180 : this.pageAngles[frame - 1];
    let locked = this.pageAngles[frame];
    let slot = stuck;
    while (!open && free - locked > 0.01) {
      const middle = (free + locked) / 2;
      const poses = this.#views[frame];
      poses.set(this.#views[frame - 1]);
      const there = this.place(middle, poses, this.#misfitViews[frame]);
      if (there < 0) free = middle;
      else {
        locked = middle;
        slot = there;
      }
    }
    const { part, joint, panels } = misfits[slot];
    return { pageAngle: free, part, at: { part, joint, panels } };
  }

  #makeRoom(frames: number, panels: number, misfits: number): void {
    const shape = `${frames} ${panels} ${misfits}`;
    if (shape === this.#shape) {
      this.misfits.fill(0);
      return;
    }
    this.#shape = shape;
    const size = panels * POSE;
    if (this.poses.length < frames * size) this.poses = new Float64Array(frames * size);
    this.misfits = new Float64Array(frames * misfits);
    this.#between = new Float64Array(size);
    this.#betweenMisfits = new Float64Array(misfits);
    this.pageAngles = new Float64Array(frames);
    this.#views = Array.from({ length: frames }, (_, f) => this.poses.subarray(f * size, (f + 1) * size));
    this.#misfitViews = Array.from({ length: frames }, (_, f) =>
      this.misfits.subarray(f * misfits, (f + 1) * misfits),
    );
  }
}
