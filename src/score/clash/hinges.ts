import { SLIVER } from '../../geometry/coverage.js';
import type { Line } from '../../geometry/line.js';
import { visitCells } from '../../geometry/trapezoids.js';
import type { Assembly } from '../../motion/assembly.js';
import { POSE } from '../../motion/pose.js';
import { receiversOf } from '../receivers.js';
import { type Body, placedLine, placedRing, placedShape, placingIn } from './bodies.js';

/** Two bodies on one crease. Fold angle: from a's side of the line to b's; 0° when both lie on the same side of it. */
export interface BodyHinge {
  /** The panels to be named: one that stands, and what it is creased to (a tab stands for what it is glued to). */
  readonly a: number;
  readonly b: number;
  readonly bodyA: Body;
  readonly bodyB: Body;
  /** The crease in the frames of both bodies. */
  readonly lineA: Line;
  readonly lineB: Line;
  /**
   * How far, at most, card meets card at a fold angle of 0° (left on left, right on right) and of 180° (left on right),
   * mm from the crease; 0 where nothing can meet.
   */
  readonly reachAt0: number;
  readonly reachAt180: number;
}

/** Where two bodies that fold through each other at a crease meet farthest from it. */
export interface MeetingPlace {
  /** mm from the crease. */
  readonly reach: number;
  readonly pointA: readonly [number, number];
  readonly pointB: readonly [number, number];
}

/** Every crease between two bodies of an assembly. */
export function hingesOf(assembly: Assembly, bodies: readonly Body[]): BodyHinge[] {
  const { panels, joints, open } = assembly;
  const byPanel = new Map(bodies.map((body) => [body.panel, body]));
  const receivers = receiversOf(assembly);
  const hinges: BodyHinge[] = [];
  for (const joint of joints) {
    if (joint.kind !== 'crease') continue;
    const [bodyA, bodyB] = joint.between.map((k) => byPanel.get(panels[k].body) as Body);
    if (bodyA === bodyB) continue;
    const [lineA, lineB] = [bodyA, bodyB].map((body, end) =>
      placedLine(joint.lines[end], placingIn(open, joint.between[end], body.panel)),
    );
    const [leftA, rightA] = reaches(bodyA.hull, lineA);
    const [leftB, rightB] = reaches(bodyB.hull, lineB);
    hinges.push({
      a: receivers.get(joint.between[0]) ?? joint.between[0],
      b: joint.between[1],
      bodyA,
      bodyB,
      lineA,
      lineB,
      reachAt0: Math.max(Math.min(leftA, leftB), Math.min(rightA, rightB)),
      reachAt180: Math.max(Math.min(leftA, rightB), Math.min(rightA, leftB)),
    });
  }
  return hinges;
}

/** The unit direction to the left of a line. */
export function across({ x0, y0, x1, y1 }: Line): [number, number] {
  const long = Math.hypot(x1 - x0, y1 - y0);
  return [(y0 - y1) / long, (x1 - x0) / long];
}

/** How far a hull reaches to the left and to the right of a line in its plane, mm; 0 for round-off. */
function reaches(hull: Float64Array, line: Line): [number, number] {
  const [nx, ny] = across(line);
  let left = 0;
  let right = 0;
  for (let i = 0; i < hull.length; i += 2) {
    const d = (hull[i] - line.x0) * nx + (hull[i + 1] - line.y0) * ny;
    left = Math.max(left, d);
    right = Math.max(right, -d);
  }
  return [left > 1e-6 ? left : 0, right > 1e-6 ? right : 0];
}

/**
 * Where card of both bodies meets, farthest from the crease, at a fold angle of 0° or 180°: both drawn in one plane, with
 * the crease as x axis, a's left as +y, and b turned over at 180°. `null` when nothing meets but slivers.
 */
export function meetingAt(assembly: Assembly, hinge: BodyHinge, at: 0 | 180): MeetingPlace | null {
  const [ringsA, ringsB] = [hinge.bodyA, hinge.bodyB].map((body, end) => {
    const line = end === 0 ? hinge.lineA : hinge.lineB;
    const over = end === 1 && at === 180 ? -1 : 1;
    return body.members.map((k) => {
      const panel = assembly.panels[k];
      const { outline, holes } = placedShape(panel, placingIn(assembly.open, k, body.panel));
      return {
        outline: alongCrease(outline, line, over),
        holes: holes.map((hole) => alongCrease(hole, line, over)),
      };
    });
  });
  let reach = 0;
  let place: readonly [number, number] = [0, 0];
  for (const a of ringsA)
    for (const b of ringsB)
      visitCells([a, b], [0, 0], (cell) => {
        if (cell.count < 2 || cell.height < SLIVER || cell.across < SLIVER) return;
        const far = Math.abs(cell.y) + cell.height / 2;
        if (far <= reach) return;
        reach = far;
        place = [cell.x, Math.sign(cell.y) * far];
      });
  if (reach === 0) return null;
  return {
    reach,
    pointA: offCrease(place, hinge.lineA, 1),
    pointB: offCrease(place, hinge.lineB, at === 180 ? -1 : 1),
  };
}

/** A ring with the crease as x axis; `over` −1 turns it over about the crease. */
function alongCrease(ring: Float64Array, line: Line, over: 1 | -1): Float64Array {
  const [nx, ny] = across(line);
  return placedRing(ring, {
    xx: ny,
    xy: -nx,
    x0: nx * line.y0 - ny * line.x0,
    yx: over * nx,
    yy: over * ny,
    y0: -over * (nx * line.x0 + ny * line.y0),
  });
}

function offCrease([x, y]: readonly [number, number], line: Line, over: 1 | -1): [number, number] {
  const [nx, ny] = across(line);
  return [line.x0 + x * ny + over * y * nx, line.y0 - x * nx + over * y * ny];
}

/** Sine of the fold angle below which two rigid bodies count as flat against each other: on neither side, yet. */
export const FLAT = 5e-4;

/** The sine and cosine of a hinge's fold angle. */
export class FoldAngle {
  sine = 0;
  cosine = 1;
  readonly #i: number;
  readonly #j: number;
  readonly #acrossA: readonly [number, number];
  readonly #acrossB: readonly [number, number];

  constructor({ bodyA, bodyB, lineA, lineB }: BodyHinge) {
    this.#i = bodyA.panel * POSE;
    this.#j = bodyB.panel * POSE;
    this.#acrossA = across(lineA);
    this.#acrossB = across(lineB);
  }

  /** Reads it off the poses of one page angle. */
  read(poses: Float64Array): void {
    const i = this.#i;
    const j = this.#j;
    const acrossA = this.#acrossA;
    const acrossB = this.#acrossB;
    const bx = poses[j] * acrossB[0] + poses[j + 1] * acrossB[1];
    const by = poses[j + 4] * acrossB[0] + poses[j + 5] * acrossB[1];
    const bz = poses[j + 8] * acrossB[0] + poses[j + 9] * acrossB[1];
    this.sine = bx * poses[i + 2] + by * poses[i + 6] + bz * poses[i + 10];
    const ax = poses[i] * acrossA[0] + poses[i + 1] * acrossA[1];
    const ay = poses[i + 4] * acrossA[0] + poses[i + 5] * acrossA[1];
    const az = poses[i + 8] * acrossA[0] + poses[i + 9] * acrossA[1];
    this.cosine = ax * bx + ay * by + az * bz;
  }
}

/**
 * Follows one fold angle from the open page to the shut one, without losing count of half turns, and tells when card has
 * been folded through card: past 0° where the bodies meet at 0°, past 180° where they meet there. Which way it may turn is
 * taken from where it first leaves the flat state.
 */
export class FoldThrough {
  readonly #hinge: BodyHinge;
  readonly #flat: number;
  /** Number of the half turn: 0 for 0° to 180°, 1 for 180° to 360°, −1 for −180° to 0°, … */
  #half = 0;
  #known = false;
  /** The half turns that it may be in. */
  #least = 0;
  #most = 0;

  /** @param flat sine of the fold angle below which they lie flat on each other, on neither side */
  constructor(hinge: BodyHinge, flat: number) {
    this.#hinge = hinge;
    this.#flat = flat;
  }

  /** Takes the next fold angle; page angles must fall from one call to the next, and no step may turn by 90°. */
  follow({ sine, cosine }: FoldAngle): void {
    const now = sine > this.#flat ? 0 : sine < -this.#flat ? 1 : -1;
    if (now < 0) return;
    if (!this.#known) {
      this.#known = true;
      this.#half = now === 0 ? 0 : -1;
      this.#least = this.#half;
      this.#most = this.#half;
      // From a half turn to the next, either way, as long as nothing meets at the flat state between them.
      while (this.#most < this.#half + 2 && this.#reachAt(this.#most + 1) === 0) this.#most++;
      while (this.#least > this.#half - 2 && this.#reachAt(this.#least) === 0) this.#least--;
      return;
    }
    if (now === (this.#half & 1)) return;
    // The sine has changed sign: it went through 0° (or 360°) if it is near there now, else through 180°.
    const even = this.#half % 2 === 0;
    this.#half += cosine > 0 === even ? -1 : 1;
  }

  /** Which flat state it has been folded through: 0, 180, or null when it has not. */
  get through(): 0 | 180 | null {
    if (!this.#known || (this.#half >= this.#least && this.#half <= this.#most)) return null;
    const turns = this.#half > this.#most ? this.#most + 1 : this.#least;
    return (turns & 1) === 0 ? 0 : 180;
  }

  /** What meets at the flat state where half turn n begins. */
  #reachAt(n: number): number {
    return (n & 1) === 0 ? this.#hinge.reachAt0 : this.#hinge.reachAt180;
  }
}
