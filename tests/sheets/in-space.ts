import { Matrix4 } from 'three';
import { POSE } from '../../src/motion/pose.js';
import type { Area } from '../../src/sheets/nets/net.js';

/** A panel's pose as a matrix of three.js. */
export function poseOf(poses: Float64Array, panel: number): Matrix4 {
  const m = poses.subarray(panel * POSE, panel * POSE + POSE);
  return new Matrix4().set(
    m[0],
    m[1],
    m[2],
    m[3],
    m[4],
    m[5],
    m[6],
    m[7],
    m[8],
    m[9],
    m[10],
    m[11],
    0,
    0,
    0,
    1,
  );
}

/** From the net's plane to the panel's own, as a matrix: the printed face is +z of the net. */
export function toPanel({ place }: Pick<Area, 'place'>): Matrix4 {
  const { c, s, x, y, flip } = place;
  return new Matrix4().set(c, -s * flip, 0, x, s, c * flip, 0, y, 0, 0, flip, 0, 0, 0, 0, 1).invert();
}
