/** Numbers in one pose: a row-major 3×4 matrix [r11 r12 r13 tx, r21 r22 r23 ty, r31 r32 r33 tz]. */
export const POSE = 12;

/** One step of the motion: writes the poses of its panels from those of panels placed before it. Allocates nothing. */
export interface Step {
  readonly part: string;
  /** The panel in whose frame its own panel lies, where that is all it does: it goes wherever that one goes. */
  readonly hangsOn?: number;
  /**
   * @param poses one frame: POSE numbers a panel; panels not yet placed hold their poses of the page angle before
   * @param misfits the frame's misfits, one for each entry of `Assembly.misfits`; a step writes its own
   */
  place(poses: Float64Array, misfits: Float64Array): void;
}

/**
 * Writes the pose of panel k: origin (ox, oy, oz), x axis (ax, ay, az) and y axis (bx, by, bz), both unit and square
 * to one another; the normal is their cross product.
 */
export function writePose(
  poses: Float64Array,
  k: number,
  ox: number,
  oy: number,
  oz: number,
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
): void {
  const i = k * POSE;
  poses[i] = ax;
  poses[i + 1] = bx;
  poses[i + 2] = ay * bz - az * by;
  poses[i + 3] = ox;
  poses[i + 4] = ay;
  poses[i + 5] = by;
  poses[i + 6] = az * bx - ax * bz;
  poses[i + 7] = oy;
  poses[i + 8] = az;
  poses[i + 9] = bz;
  poses[i + 10] = ax * by - ay * bx;
  poses[i + 11] = oz;
}

/** Copies the pose of panel `from` to panel `to`: a tab lies in the frame of what it is glued to. */
export function copyPose(poses: Float64Array, from: number, to: number): void {
  const i = from * POSE;
  poses.copyWithin(to * POSE, i, i + POSE);
}

/** The world point of (x, y) on panel k, written to `out`. */
export function worldPoint(
  poses: Float64Array,
  k: number,
  x: number,
  y: number,
  out: Float64Array | number[],
): void {
  const i = k * POSE;
  out[0] = poses[i] * x + poses[i + 1] * y + poses[i + 3];
  out[1] = poses[i + 4] * x + poses[i + 5] * y + poses[i + 7];
  out[2] = poses[i + 8] * x + poses[i + 9] * y + poses[i + 11];
}

/** The world direction of (x, y) on panel k, written to `out`. */
export function worldDirection(
  poses: Float64Array,
  k: number,
  x: number,
  y: number,
  out: Float64Array | number[],
): void {
  const i = k * POSE;
  out[0] = poses[i] * x + poses[i + 1] * y;
  out[1] = poses[i + 4] * x + poses[i + 5] * y;
  out[2] = poses[i + 8] * x + poses[i + 9] * y;
}

type Flat = readonly [number, number];

/** A step for a panel glued flat on another: its origin lies at (x, y) there, turned by `turn` radians. */
export function fixedStep(part: string, panel: number, on: number, at: Flat, turn: number): Step {
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  return { ...parallelStep(part, panel, on, at, on, [c, s], [-s, c]), hangsOn: on };
}

/**
 * A step for a panel whose origin is a point of one panel and whose axes are two directions (unit, square to one
 * another) of another panel: it stays parallel to the latter.
 */
export function parallelStep(
  part: string,
  panel: number,
  hangsOn: number,
  at: Flat,
  parallelTo: number,
  x: Flat,
  y: Flat,
): Step {
  const o = new Float64Array(3);
  const a = new Float64Array(3);
  const b = new Float64Array(3);
  return {
    part,
    place(poses) {
      worldPoint(poses, hangsOn, at[0], at[1], o);
      worldDirection(poses, parallelTo, x[0], x[1], a);
      worldDirection(poses, parallelTo, y[0], y[1], b);
      writePose(poses, panel, o[0], o[1], o[2], a[0], a[1], a[2], b[0], b[1], b[2]);
    },
  };
}
