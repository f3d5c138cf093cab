import { type Assembly, type Line, POSE } from '../motion/assembly.js';

/** Two panels on one crease, as far as they may be folded through each other. */
export interface Hinge {
  readonly a: number;
  readonly b: number;
  /** Directions square to the crease in each panel's plane, for corresponding directions along it. */
  readonly acrossA: readonly [number, number];
  readonly acrossB: readonly [number, number];
  /** A point of the crease in each panel's plane: its middle. */
  readonly middleA: readonly [number, number];
  readonly middleB: readonly [number, number];
  /**
   * How far both reach from the crease, mm, on what meets at a fold angle of 0° (the sides to which `across` points,
   * or the opposite ones) and at 180° (one's own side and the other's opposite). 0 where there is nothing to meet.
   */
  readonly reachAt0: number;
  readonly reachAt180: number;
}

/** Every crease of an assembly as a hinge. A tab stands for what it is glued to: the panel stands on that. */
export function hingesOf(assembly: Assembly): Hinge[] {
  const { panels, joints } = assembly;
  const receiver = new Map<number, number>();
  for (const joint of joints)
    if (joint.kind === 'glue' && panels[joint.between[1]].role === 'tab')
      receiver.set(joint.between[1], joint.between[0]);
  const hinges: Hinge[] = [];
  for (const joint of joints) {
    if (joint.kind !== 'crease') continue;
    const a = receiver.get(joint.between[0]) ?? joint.between[0];
    const b = joint.between[1];
    const [lineA, lineB] = joint.lines;
    const [leftA, rightA] = reaches(panels[a].outline, lineA);
    const [leftB, rightB] = reaches(panels[b].outline, lineB);
    hinges.push({
      a,
      b,
      acrossA: across(lineA),
      acrossB: across(lineB),
      middleA: [(lineA.x0 + lineA.x1) / 2, (lineA.y0 + lineA.y1) / 2],
      middleB: [(lineB.x0 + lineB.x1) / 2, (lineB.y0 + lineB.y1) / 2],
      reachAt0: Math.max(Math.min(leftA, leftB), Math.min(rightA, rightB)),
      reachAt180: Math.max(Math.min(leftA, rightB), Math.min(rightA, leftB)),
    });
  }
  return hinges;
}

function across(line: Line): [number, number] {
  const dx = line.x1 - line.x0;
  const dy = line.y1 - line.y0;
  const long = Math.hypot(dx, dy);
  return [-dy / long, dx / long];
}

/** How far a panel's card reaches to the left and to the right of a line in its plane, mm; 0 for round-off. */
function reaches(outline: Float64Array, line: Line): [number, number] {
  const [nx, ny] = across(line);
  let left = 0;
  let right = 0;
  for (let i = 0; i < outline.length; i += 2) {
    const d = (outline[i] - line.x0) * nx + (outline[i + 1] - line.y0) * ny;
    left = Math.max(left, d);
    right = Math.max(right, -d);
  }
  return [left > 1e-6 ? left : 0, right > 1e-6 ? right : 0];
}

/** Sine of the fold angle below which two panels count as flat against each other: neither side, yet. */
const FLAT = 1e-3;

/**
 * Follows the fold angle of one hinge through an opening. Panels may turn through 180° when they have card on one
 * side only, and through 0° never: passing such an angle, they fold through each other.
 */
export class FoldAngle {
  /** The sign of the sine when last clear of the flat states; 0 before it ever was. */
  private side = 0;
  private through = 0;

  constructor(private readonly hinge: Hinge) {}

  /** How far card is folded through card in this frame, mm out of its plane: reach × sine; 0 when it is not. */
  push(poses: Float64Array): number {
    const { a, b, acrossA, acrossB } = this.hinge;
    const i = a * POSE;
    const j = b * POSE;
    const bx = poses[j] * acrossB[0] + poses[j + 1] * acrossB[1];
    const by = poses[j + 4] * acrossB[0] + poses[j + 5] * acrossB[1];
    const bz = poses[j + 8] * acrossB[0] + poses[j + 9] * acrossB[1];
    const sine = bx * poses[i + 2] + by * poses[i + 6] + bz * poses[i + 10];
    const now = sine > FLAT ? 1 : sine < -FLAT ? -1 : 0;
    if (now !== 0) {
      if (this.side !== 0 && now !== this.side) {
        const ax = poses[i] * acrossA[0] + poses[i + 1] * acrossA[1];
        const ay = poses[i + 4] * acrossA[0] + poses[i + 5] * acrossA[1];
        const az = poses[i + 8] * acrossA[0] + poses[i + 9] * acrossA[1];
        const reach = ax * bx + ay * by + az * bz > 0 ? this.hinge.reachAt0 : this.hinge.reachAt180;
        // Passing back the way it came frees it again.
        this.through = this.through > 0 ? 0 : reach;
      }
      this.side = now;
    }
    return this.through * Math.abs(sine);
  }

  /** How far the two reach together where they are folded through each other, mm. */
  get depth(): number {
    return this.through;
  }
}
