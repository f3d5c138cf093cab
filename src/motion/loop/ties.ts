import { numbers, zeros } from '../../geometry/numbers.js';
import { checkJoint, type LoopJoint, type Point } from './joints.js';

/** What a paper hub takes to be tilted, N mm/rad, and a joint to be pulled apart, N/mm: typical of card. */
export const HUB_TILT = 20;
const JOINT = 500;
/** mm of gap that weigh as much as a radian of tilt, by the energy of both. Half or twice as much tilts no hub by 0.01°. */
export const TILT_WEIGHT = Math.sqrt(HUB_TILT / JOINT);

/** A panel with all its joints in one place has no reach of its own; mm. */
const LEAST_REACH = 1;

/** Numbers of one tie in `Ties.at`: point of a, start and run of the line on b, room. */
const AT = 7;

/**
 * The joints taken apart into what the solver needs: ties (a point of a held to a point, or a stretch, of b) and
 * tilts (two normals held parallel). Panels are slots: the free ones first.
 */
export interface Ties {
  readonly count: number;
  readonly joint: Int32Array;
  readonly a: Int32Array;
  readonly b: Int32Array;
  /** x and y on a; x, y and run x, y on b (a run of 0 is a point); how far they may part for nothing. */
  readonly at: Float64Array;
  readonly tilts: number;
  readonly tiltA: Int32Array;
  readonly tiltB: Int32Array;
}

/** @throws CannotBuild when a joint cannot be held: no numbers, no length, no two panels */
export function tiesOf(joints: readonly LoopJoint[], slotOf: ReadonlyMap<number, number>): Ties {
  const joint: number[] = [];
  const a: number[] = [];
  const b: number[] = [];
  const at: number[] = [];
  const tiltA: number[] = [];
  const tiltB: number[] = [];
  const slot = (panel: number) => slotOf.get(panel) as number;
  const tie = (index: number, pointA: Point, from: Point, to: Point, room: number) => {
    joint.push(index);
    a.push(slot(joints[index].a));
    b.push(slot(joints[index].b));
    at.push(...pointA, ...from, to[0] - from[0], to[1] - from[1], room);
  };
  joints.forEach((j, index) => {
    checkJoint(j);
    if (j.kind === 'crease') {
      tie(index, j.lineA[0], j.lineB[0], j.lineB[0], 0);
      tie(index, j.lineA[1], j.lineB[1], j.lineB[1], 0);
    } else if (j.kind === 'slide') {
      tie(index, j.pointA, j.alongB[0], j.alongB[1], j.play / 2);
    } else {
      tie(index, j.pointA, j.pointB, j.pointB, j.play / 2);
      tiltA.push(slot(j.a));
      tiltB.push(slot(j.b));
    }
  });
  return {
    count: joint.length,
    joint: Int32Array.from(joint),
    a: Int32Array.from(a),
    b: Int32Array.from(b),
    at: numbers(at),
    tilts: tiltA.length,
    tiltA: Int32Array.from(tiltA),
    tiltB: Int32Array.from(tiltB),
  };
}

/** Where tie k starts in `Ties.at`. */
export const tieAt = (k: number) => k * AT;

/** Middle (x, y) of each free panel's ties in its own plane, and how far the farthest of them lies from it, mm. */
export function middlesOf(ties: Ties, free: number): { middle: Float64Array; reach: Float64Array } {
  const middle = zeros(2 * free);
  const reach = zeros(free).fill(LEAST_REACH);
  const count = zeros(free);
  const each = (visit: (panel: number, x: number, y: number) => void) => {
    for (let k = 0; k < ties.count; k++) {
      const [ax, ay, bx, by, runX, runY] = ties.at.subarray(tieAt(k));
      if (ties.a[k] < free) visit(ties.a[k], ax, ay);
      if (ties.b[k] < free) visit(ties.b[k], bx + runX / 2, by + runY / 2);
    }
  };
  each((panel, x, y) => {
    count[panel]++;
    middle[2 * panel] += x;
    middle[2 * panel + 1] += y;
  });
  for (let i = 0; i < 2 * free; i++) middle[i] /= count[i >> 1];
  each((panel, x, y) => {
    reach[panel] = Math.max(reach[panel], Math.hypot(x - middle[2 * panel], y - middle[2 * panel + 1]));
  });
  return { middle, reach };
}

/** For each of a free panel's unknowns, the first that it shares a tie with: that of the first panel tied to its own. */
export function startsOf(ties: Ties, free: number): Int32Array {
  const first = Int32Array.from({ length: free }, (_, k) => k);
  for (let k = 0; k < ties.count; k++) {
    const later = Math.max(ties.a[k], ties.b[k]);
    if (later < free) first[later] = Math.min(first[later], ties.a[k], ties.b[k]);
  }
  return Int32Array.from({ length: 6 * free }, (_, row) => 6 * first[Math.floor(row / 6)]);
}
