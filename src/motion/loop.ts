import { POSE } from './assembly.js';
import { CannotBuild } from './cannot-build.js';
import { type LoopJoint, tiesOf } from './loop/joints.js';
import { type Bend, Knees } from './loop/knees.js';
import { moveBody, partOfMotion, rotationBetween } from './loop/rigid.js';
import { Settler } from './loop/settle.js';
import { Strain } from './loop/strain.js';

export type { HingedCrease, LoopJoint, Pivot, Point, Slide } from './loop/joints.js';
export type { Bend } from './loop/knees.js';

export class Loop {
  gap = 0;
  tilt = 0;
  lift = 0;
  readonly turn: Float64Array;
  jump = 0;
  settled = true;
  /** Diagnostics: solves and steps of the last frame. */
  solves = 0;
  steps = 0;
  private readonly slots: Int32Array;
  private readonly free: number;
  private readonly strain: Strain;
  private readonly settler: Settler;
  private readonly knees: Knees;
  private readonly now: Float64Array;
  private readonly last: Float64Array;
  private readonly first: Float64Array;
  private readonly goal: Float64Array;
  private readonly speed: Float64Array;
  private readonly change: Float64Array;

  constructor(free: readonly number[], joints: readonly LoopJoint[], bends: readonly Bend[] = []) {
    const slotOf = new Map<number, number>();
    for (const panel of free) slotOf.set(panel, slotOf.size);
    this.free = slotOf.size;
    for (const { a, b } of joints)
      for (const panel of [a, b]) if (!slotOf.has(panel)) slotOf.set(panel, slotOf.size);
    for (const panel of free)
      if (!joints.some((j) => j.a === panel || j.b === panel))
        throw new CannotBuild(`panel ${panel} of the loop hangs on no joint`);
    this.slots = Int32Array.from(slotOf.keys());
    this.strain = new Strain(this.free, tiesOf(joints, slotOf));
    this.settler = new Settler(this.strain);
    this.knees = new Knees(joints, slotOf, this.free, bends);
    this.joints = joints;
    const size = POSE * this.slots.length;
    this.now = new Float64Array(size);
    this.last = new Float64Array(size);
    this.first = new Float64Array(size);
    this.goal = new Float64Array(size);
    this.turn = new Float64Array(this.free);
    this.speed = new Float64Array(6 * this.free);
    this.change = new Float64Array(6 * this.free);
  }
  private readonly joints: readonly LoopJoint[];

  get undecided(): readonly number[] {
    return this.knees.undecided;
  }

  start(poses: Float64Array): void {
    this.take(poses, this.now);
    this.strain.faceAs(this.now);
    this.knees.start(this.now);
    this.last.set(this.now);
    this.settled = this.settler.settle(this.now, this.last);
    this.speed.fill(0);
    this.last.set(this.now);
    this.give(poses);
    this.report();
  }

  solve(poses: Float64Array): void {
    this.take(poses, this.goal);
    const { now, last, first, goal, free } = this;
    first.set(last);
    let s = 0;
    let h = 1;
    this.solves = 0;
    this.steps = 0;
    let stiffest = 0;
    this.settled = true;
    while (s < 1) {
      now.set(last);
      for (let k = free; k < this.slots.length; k++)
        if (s + h === 1) for (let i = k * POSE; i < (k + 1) * POSE; i++) now[i] = goal[i];
        else partOfMotion(first, goal, k, s + h, now);
      this.guess(h);
      this.knees.bend(now);
      const settled = this.settler.settle(now, last);
      this.solves++;
      this.steps += this.settler.steps;
      this.measureChange();
      const plain = settled && this.explained(h);
      if (!plain && h > LEAST_PART) {
        h /= 2;
        continue;
      }
      let jumped = false;
      if (!plain) {
        let most = 0;
        for (let k = 0; k < free; k++) most = Math.max(most, this.turned(k));
        stiffest = Math.max(stiffest, most);
        if (most > 0.1) jumped = true;
        this.settled &&= settled;
      }
      for (let i = 0; i < this.speed.length; i++) this.speed[i] = jumped ? 0 : this.change[i] / h;
      last.set(now);
      this.knees.remember(now);
      s += h;
      h = Math.min(2 * h, 1 - s);
    }
    let whole = 0;
    for (let k = 0; k < free; k++) {
      rotationBetween(first, now, k, rotation);
      this.turn[k] = Math.hypot(rotation[0], rotation[1], rotation[2]);
      whole = Math.max(whole, this.turn[k]);
    }
    this.jump = stiffest > Math.max(whole / 2, 0.035) ? stiffest : 0;
    this.give(poses);
    this.report();
  }

  private turned(k: number) {
    return Math.hypot(this.change[6 * k + 3], this.change[6 * k + 4], this.change[6 * k + 5]);
  }

  private explained(h: number): boolean {
    const { change, speed, free, strain } = this;
    for (let k = 0; k < free; k++) {
      const g = 6 * k;
      const r = strain.reach[k];
      let off = 0;
      let way = 0;
      for (let i = 0; i < 6; i++) {
        const scale = i < 3 ? 1 : r;
        const e = scale * (change[g + i] - h * speed[g + i]);
        off += e * e;
        way += (scale * change[g + i]) ** 2;
      }
      if (off > 0.25 * way && way > (0.02 * r) ** 2) return false;
    }
    return true;
  }

  private measureChange(): void {
    const { strain, change, last, now, free } = this;
    const { middle, centre } = strain;
    for (let k = 0; k < free; k++) {
      const i = k * POSE;
      rotationBetween(last, now, k, rotation);
      for (let row = 0; row < 3; row++) {
        const r = i + 4 * row;
        change[6 * k + row] =
          (now[r] - last[r]) * middle[2 * k] +
          (now[r + 1] - last[r + 1]) * middle[2 * k + 1] +
          now[r + 3] -
          last[r + 3];
        change[6 * k + 3 + row] = rotation[row];
      }
      void centre;
    }
  }

  private guess(h: number): void {
    const { speed, now, free, strain } = this;
    const { middle } = strain;
    for (let k = 0; k < free; k++) {
      const i = k * POSE;
      const g = 6 * k;
      const c = [0, 0, 0];
      for (let row = 0; row < 3; row++) {
        const r = i + 4 * row;
        c[row] = now[r] * middle[2 * k] + now[r + 1] * middle[2 * k + 1] + now[r + 3];
      }
      moveBody(
        now,
        k,
        c[0],
        c[1],
        c[2],
        h * speed[g + 3],
        h * speed[g + 4],
        h * speed[g + 5],
        h * speed[g],
        h * speed[g + 1],
        h * speed[g + 2],
      );
    }
  }

  private take(poses: Float64Array, out: Float64Array): void {
    for (let k = 0; k < this.slots.length; k++) {
      const from = this.slots[k] * POSE;
      for (let i = 0; i < POSE; i++) out[k * POSE + i] = poses[from + i];
    }
  }

  private give(poses: Float64Array): void {
    for (let k = 0; k < this.free; k++) {
      const to = this.slots[k] * POSE;
      for (let i = 0; i < POSE; i++) poses[to + i] = this.now[k * POSE + i];
    }
  }

  private report(): void {
    const { strain, now, joints } = this;
    const { ties } = strain;
    this.gap = 0;
    this.lift = 0;
    for (let k = 0; k < ties.count; ) {
      const index = ties.joint[k];
      let most = 0;
      for (; k < ties.count && ties.joint[k] === index; k++) most = Math.max(most, strain.gap(now, k));
      this.gap += most;
      const j = joints[index];
      if (j.kind === 'crease' && j.anchored) this.lift = Math.max(this.lift, most);
    }
    this.tilt = 0;
    for (let k = 0; k < ties.tilts; k++) this.tilt = Math.max(this.tilt, strain.tilt(now, k));
  }
}

const LEAST_PART = 1 / 64;
const rotation = new Float64Array(3);
