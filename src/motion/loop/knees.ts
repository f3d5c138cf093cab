import { CannotBuild } from '../cannot-build.js';
import { POSE } from '../pose.js';
import type { LoopJoint, Point } from './joints.js';
import { moveBody } from './rigid.js';

/**
 * Which way a limb that is drawn straight bends at its knee.
 *
 * At a pivot, +1 is to the left of the way from a's other joints to the knee, seen on a's face; at a crease, +1 is
 * towards the side that a's face looks to (a mountain, seen there).
 */
export interface KneeBend {
  /** Index of the knee among the loop's joints. */
  readonly joint: number;
  readonly side: 1 | -1;
}

interface Knee {
  readonly joint: number;
  readonly a: number;
  readonly b: number;
  /** On a: its other joints' middle, the knee, and the run of the crease there (none for a pivot). */
  readonly hip: Point;
  readonly kneeA: Point;
  readonly run: Point | null;
  /** On b: its other joints' middle, and the knee. */
  readonly foot: Point;
  readonly kneeB: Point;
}

/**
 * The knees of a loop: joints between two free panels that are both held elsewhere too. Each remembers which way it
 * is bent, so that a limb that went straight (and perhaps locked there) bends that way again, and never by round-off.
 */
export class Knees {
  readonly #bends: readonly KneeBend[];
  /** Joints whose limb was drawn straight without a word which way it bends: +1 is taken. */
  readonly undecided: number[] = [];
  readonly #knees: Knee[] = [];
  /** Which way each knee is bent, or was last; 0 when it never was. */
  readonly #side: Int8Array;

  /** @throws CannotBuild when a bend names a joint that is no knee */
  constructor(
    joints: readonly LoopJoint[],
    slotOf: ReadonlyMap<number, number>,
    free: number,
    bends: readonly KneeBend[],
  ) {
    this.#bends = bends;
    joints.forEach((j, joint) => {
      const a = slotOf.get(j.a) as number;
      const b = slotOf.get(j.b) as number;
      if (a >= free || b >= free || j.kind === 'slide') return;
      const hip = middleOfOthers(joints, joint, j.a);
      const foot = middleOfOthers(joints, joint, j.b);
      if (!hip || !foot) return;
      const at =
        j.kind === 'pivot'
          ? { kneeA: j.pointA, kneeB: j.pointB, run: null }
          : { kneeA: middle(j.lineA), kneeB: middle(j.lineB), run: difference(j.lineA) };
      this.#knees.push({ joint, a, b, hip, foot, ...at });
    });
    for (const { joint } of bends)
      if (!this.#knees.some((knee) => knee.joint === joint))
        throw new CannotBuild(`joint ${joint} is no knee: it does not join two parts of one limb`);
    this.#side = new Int8Array(this.#knees.length);
  }

  /** Takes each knee's way from the poses; where its limb is straight there, from the maker's word. */
  start(poses: Float64Array): void {
    this.#side.fill(0);
    this.remember(poses);
    this.undecided.length = 0;
    for (let k = 0; k < this.#knees.length; k++) {
      if (this.#side[k] !== 0) continue;
      const said = this.#bends.find((bend) => bend.joint === this.#knees[k].joint);
      if (!said) this.undecided.push(this.#knees[k].joint);
      this.#side[k] = said ? said.side : 1;
    }
  }

  /** Keeps each knee's way for when its limb is straight. */
  remember(poses: Float64Array): void {
    for (let k = 0; k < this.#knees.length; k++) {
      const sine = this.#look(poses, this.#knees[k]);
      if (Math.abs(sine) > STRAIGHT) this.#side[k] = sine > 0 ? 1 : -1;
    }
  }

  /** Whether any limb lies straight, or folded on itself. */
  anyInLine(poses: Float64Array): boolean {
    for (let k = 0; k < this.#knees.length; k++) {
      this.#look(poses, this.#knees[k]);
      if (inLine) return true;
    }
    return false;
  }

  /** Bends every straight limb of a guess a little, each its own way. */
  bend(poses: Float64Array): void {
    for (let k = 0; k < this.#knees.length; k++) {
      const knee = this.#knees[k];
      this.#look(poses, knee);
      if (!inLine) continue;
      // The knee swings from the hip on a and from the foot on b: by angles whose arcs are alike.
      const turn = NUDGE * this.#side[k] * (folded && ratio[0] < 1 ? -1 : 1);
      scaled(axis, turn, rotation);
      moveBody(poses, knee.a, hip, rotation, NOWHERE);
      scaled(axis, (folded ? turn : -turn) * ratio[0], rotation);
      moveBody(poses, knee.b, foot, rotation, NOWHERE);
    }
  }

  /** The sine of a knee's bend, positive on its +1 side; sets `inLine`, `folded`, `axis`, `hip`, `foot` and `ratio`. */
  #look(poses: Float64Array, knee: Knee): number {
    world(poses, knee.a, knee.hip, 1, hip);
    world(poses, knee.a, knee.kneeA, 1, to);
    world(poses, knee.b, knee.kneeB, 1, from);
    world(poses, knee.b, knee.foot, 1, foot);
    for (let i = 0; i < 3; i++) {
      to[i] -= hip[i];
      from[i] = foot[i] - from[i];
    }
    const n = knee.a * POSE + 2;
    if (knee.run) world(poses, knee.a, knee.run, 0, axis);
    else for (let i = 0; i < 3; i++) axis[i] = poses[n + 4 * i];
    const length = lengthOf(axis);
    // Along a crease, the sense in which axis × way points where a's face looks: then +1 is there.
    cross(axis, to);
    const towards = product[0] * poses[n] + product[1] * poses[n + 4] + product[2] * poses[n + 8];
    const sense = knee.run && towards < 0 ? -1 : 1;
    for (let i = 0; i < 3; i++) axis[i] *= sense / length;
    across(to);
    across(from);
    const thigh = lengthOf(to);
    const shin = lengthOf(from);
    ratio[0] = thigh / shin;
    const both = thigh * shin;
    cross(to, from);
    const sine = -dot(product, axis) / both;
    folded = dot(to, from) < 0;
    inLine = Math.abs(sine) < 1e-3 && !(folded && Math.abs(thigh - shin) < 1e-3 * thigh);
    return both > 0 ? sine : 0;
  }
}

/** Sine of the bend below which a limb counts as straight: 1°. */
const STRAIGHT = 0.0175;
/** By how much a straight limb's guess is bent, radians. */
const NUDGE = 0.01;

// What `look` finds: module-wide, so that nothing is allocated in a frame.
const hip = new Float64Array(3);
const foot = new Float64Array(3);
const axis = new Float64Array(3);
const to = new Float64Array(3);
const from = new Float64Array(3);
const product = new Float64Array(3);
const rotation = new Float64Array(3);
const NOWHERE = new Float64Array(3);
/** Thigh over shin. */
const ratio = new Float64Array(1);
/** Whether thigh and shin lie in one line; and whether the limb is folded back on itself. */
let inLine = false;
let folded = false;

function world(poses: Float64Array, k: number, at: Point, place: 0 | 1, out: Float64Array): void {
  for (let row = 0; row < 3; row++) {
    const i = k * POSE + 4 * row;
    out[row] = poses[i] * at[0] + poses[i + 1] * at[1] + place * poses[i + 3];
  }
}

function scaled(v: Float64Array, by: number, out: Float64Array): void {
  for (let i = 0; i < 3; i++) out[i] = by * v[i];
}

const lengthOf = (v: Float64Array) => Math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
const dot = (u: Float64Array, v: Float64Array) => u[0] * v[0] + u[1] * v[1] + u[2] * v[2];

function cross(u: Float64Array, v: Float64Array): void {
  product[0] = u[1] * v[2] - u[2] * v[1];
  product[1] = u[2] * v[0] - u[0] * v[2];
  product[2] = u[0] * v[1] - u[1] * v[0];
}

/** Takes away what of v lies along the axis. */
function across(v: Float64Array): void {
  const along = dot(v, axis);
  for (let i = 0; i < 3; i++) v[i] -= along * axis[i];
}

const middle = ([p, q]: readonly [Point, Point]): Point => [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
const difference = ([p, q]: readonly [Point, Point]): Point => [q[0] - p[0], q[1] - p[1]];

/** The middle of the joints of a panel other than one, in its own plane; null when it has no other. */
function middleOfOthers(joints: readonly LoopJoint[], except: number, panel: number): Point | null {
  const places: Point[] = [];
  joints.forEach((j, index) => {
    if (index === except) return;
    if (j.a === panel) places.push(j.kind === 'crease' ? middle(j.lineA) : j.pointA);
    else if (j.b === panel)
      places.push(j.kind === 'crease' ? middle(j.lineB) : j.kind === 'slide' ? middle(j.alongB) : j.pointB);
  });
  if (places.length === 0) return null;
  const sum = places.reduce<[number, number]>(([x, y], p) => [x + p[0], y + p[1]], [0, 0]);
  return [sum[0] / places.length, sum[1] / places.length];
}
