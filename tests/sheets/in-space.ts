import { Matrix4 } from 'three';
import { POSE } from '../../src/motion/pose.js';
import type { Area } from '../../src/sheets/nets/net.js';

/** A panel's pose as a matrix of three.js. */
export function poseOf(poses: Float64Array, panel: number): Matrix4 {
  const m = panel * POSE;
  const row = (k: number) => [poses[m + k], poses[m + k + 1], poses[m + k + 2], poses[m + k + 3]] as const;
  return new Matrix4().set(...row(0), ...row(4), ...row(8), 0, 0, 0, 1);
}

/** From the net's plane to the panel's own, as a matrix: the printed face is +z of the net. */
export function toPanel({ place }: Pick<Area, 'place'>): Matrix4 {
  const { c, s, x, y, flip } = place;
  return new Matrix4().set(c, -s * flip, 0, x, s, c * flip, 0, y, 0, 0, flip, 0, 0, 0, 0, 1).invert();
}
