import type { Line } from '../../geometry/line.js';
import type { Assembly } from '../../motion/assembly.js';
import { type Lock, Opening } from '../../motion/opening.js';
import { POSE, worldDirection } from '../../motion/pose.js';

/** How a crease folds, seen from the printed face, over the whole opening. */
export type Sense = 'mountain' | 'valley' | 'both ways' | 'flat';

/** Poses of the figure as its page shuts, for what must be read off the motion. */
export interface Frames {
  readonly pageAngles: readonly number[];
  readonly poses: readonly Float64Array[];
  readonly lock: Lock | null;
}

/** Opens the figure in steps of 5°. Where it locks early, it is taken half open too, as it would be with some force. */
export function framesOf(assembly: Assembly): Frames {
  const opening = new Opening();
  opening.run(assembly, 5);
  const all = Array.from({ length: opening.count }, (_, i) => i);
  const pageAngles = all.map((i) => opening.pageAngles[i]);
  const poses: Float64Array[] = all.map((i) => opening.frame(i).slice());
  const { lock } = opening;
  if (poses.length === 0) {
    pageAngles.push(180);
    poses.push(assembly.open);
  }
  if (lock !== null && lock.pageAngle > 90) {
    pageAngles.push(90);
    poses.push(assembly.halfOpen());
  }
  return { pageAngles, poses, lock };
}

/** A panel at a crease: the crease's line in its frame, and on which side of the line its card lies. */
export interface Side {
  readonly panel: number;
  readonly line: Line;
  readonly side: 1 | -1;
}

/** Less than this is no fold, radians: 1°. */
const STIRS = Math.PI / 180;

/** The same crease seen from the other face. */
export function fromBehind(sense: Sense): Sense {
  return sense === 'mountain' ? 'valley' : sense === 'valley' ? 'mountain' : sense;
}

/** How the crease between two panels folds, seen from the printed face of the first. */
export function senseOf(frames: Frames, first: Side, second: Side): Sense {
  const angles = foldAngles(frames, first, second);
  const valley = Math.max(...angles) > STIRS;
  const mountain = Math.min(...angles) < -STIRS;
  return valley && mountain ? 'both ways' : valley ? 'valley' : mountain ? 'mountain' : 'flat';
}

/**
 * The fold angle at each frame, radians: 0 flat, positive where the second panel rises on the printed face of the
 * first. With u and v the directions, square to the crease, in which the two panels lie from it, and z the first
 * one's normal: flat is v = −u, so the angle is atan2(v·z, −v·u). It is followed from the frame that lies nearest to
 * a right angle, since folded quite shut it could be +180° or −180°.
 */
function foldAngles(frames: Frames, first: Side, second: Side): number[] {
  const u = new Float64Array(3);
  const v = new Float64Array(3);
  const angles = frames.poses.map((poses) => {
    across(poses, first, u);
    across(poses, second, v);
    const up = aboveFace(poses, first.panel, v);
    const angle = Math.atan2(up, -(v[0] * u[0] + v[1] * u[1] + v[2] * u[2]));
    // Folded quite shut is taken as folded onto the printed face, unless the rest of the motion tells.
    return angle < 1e-6 - Math.PI ? angle + 2 * Math.PI : angle;
  });
  const plain = (i: number) => Math.abs(Math.abs(angles[i]) - Math.PI / 2);
  let anchor = 0;
  for (let i = 1; i < angles.length; i++) if (plain(i) < plain(anchor)) anchor = i;
  for (let i = anchor + 1; i < angles.length; i++) angles[i] = nearest(angles[i], angles[i - 1]);
  for (let i = anchor - 1; i >= 0; i--) angles[i] = nearest(angles[i], angles[i + 1]);
  return angles;
}

/**
 * On which face of `receiver` a panel stands that is creased to it: +1 the printed face, −1 the back. Where it passes
 * from one to the other, the face above which it reaches farther.
 */
export function faceStoodOn(frames: Frames, receiver: number, standing: Side): 1 | -1 {
  const u = new Float64Array(3);
  let most = 0;
  for (const poses of frames.poses) {
    across(poses, standing, u);
    const up = aboveFace(poses, receiver, u);
    if (Math.abs(up) > Math.abs(most) + 1e-9) most = up;
  }
  return most < 0 ? -1 : 1;
}

/** World direction, square to the crease, in which the card of a side lies from it. */
function across(poses: Float64Array, { panel, line, side }: Side, out: Float64Array): void {
  const dx = line.x1 - line.x0;
  const dy = line.y1 - line.y0;
  const scale = side / Math.hypot(dx, dy);
  worldDirection(poses, panel, -dy * scale, dx * scale, out);
}

/** How far a world direction points out of a panel's printed face. */
function aboveFace(poses: Float64Array, panel: number, d: Float64Array): number {
  const i = panel * POSE;
  return poses[i + 2] * d[0] + poses[i + 6] * d[1] + poses[i + 10] * d[2];
}

function nearest(angle: number, to: number): number {
  return angle + 2 * Math.PI * Math.round((to - angle) / (2 * Math.PI));
}
