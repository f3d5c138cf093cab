import { POSE } from '../pose.js';
import { type Ties, tieAt } from './ties.js';

/** What `span` found last: module-wide, so that nothing is allocated in a frame. */
export const found = {
  /** The point p of a in the world. */
  point: new Float64Array(3),
  /** The nearest point q of b's stretch. */
  foot: new Float64Array(3),
  /** p − q, and its length in `distance[0]`, mm. */
  apart: new Float64Array(3),
  distance: new Float64Array(1),
  /** Unit direction of b's stretch; zero where it is a point. */
  line: new Float64Array(3),
  /** Whether q is free to run: within the stretch and not at an end. */
  running: false,
};

/** Finds, for tie k, the point of a, its nearest on b's stretch, and how they stand apart. */
export function span(poses: Float64Array, ties: Ties, k: number): void {
  const { at } = ties;
  const { point, foot, apart, line } = found;
  const t = tieAt(k);
  const i = ties.a[k] * POSE;
  const j = ties.b[k] * POSE;
  let squared = 0;
  let ahead = 0;
  for (let row = 0; row < 3; row++) {
    const a = i + 4 * row;
    const b = j + 4 * row;
    point[row] = poses[a] * at[t] + poses[a + 1] * at[t + 1] + poses[a + 3];
    foot[row] = poses[b] * at[t + 2] + poses[b + 1] * at[t + 3] + poses[b + 3];
    line[row] = poses[b] * at[t + 4] + poses[b + 1] * at[t + 5];
    apart[row] = point[row] - foot[row];
    squared += line[row] * line[row];
    ahead += line[row] * apart[row];
  }
  found.running = squared > 0 && ahead > 0 && ahead < squared;
  if (squared > 0) {
    const part = Math.min(1, Math.max(0, ahead / squared));
    const length = Math.sqrt(squared);
    for (let row = 0; row < 3; row++) {
      foot[row] += part * line[row];
      apart[row] -= part * line[row];
      line[row] /= length;
    }
  }
  found.distance[0] = Math.sqrt(apart[0] * apart[0] + apart[1] * apart[1] + apart[2] * apart[2]);
}
