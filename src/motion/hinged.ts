import type { Line } from '../geometry/line.js';
import { POSE, type Step, worldPoint, writePose } from './pose.js';

/** A line in the plane of one panel. */
export interface LineOn {
  readonly panel: number;
  readonly line: Line;
}

/**
 * The motion step of a panel hinged along lines of panels that are placed already: a plate on supports, a strut.
 *
 * The first line places the panel but for a turn about it: the panel's x axis runs along the line, from its start.
 * The turn is then chosen so that the start of the second line lies in the panel's plane, on the side where y is
 * positive; where it lies on the first line, it cannot tell which way, and the panel turns any way. Every line after the
 * first has a place in the panel, too (`own`). It has two misfits, both of the distance, at the worse of its two ends, between
 * where it is on its support and where it is on the panel, mm: the part of it in the panel's plane, which card must be forced
 * to give, and the whole of it, to which it only bends or twists.
 */
export function hingedStep(
  part: string,
  panel: number,
  supports: readonly LineOn[],
  own: readonly Line[],
  /** Index of the first misfit of the second line; its other one and those of further lines follow. */
  misfit: number,
): Step {
  const a = new Float64Array(3);
  const b = new Float64Array(3);
  const p = new Float64Array(3);
  const q = new Float64Array(3);
  return {
    part,
    place(poses, misfits) {
      const first = supports[0];
      worldPoint(poses, first.panel, first.line.x0, first.line.y0, a);
      worldPoint(poses, first.panel, first.line.x1, first.line.y1, b);
      const long = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
      const ux = (b[0] - a[0]) / long;
      const uy = (b[1] - a[1]) / long;
      const uz = (b[2] - a[2]) / long;
      const second = supports[1];
      worldPoint(poses, second.panel, second.line.x0, second.line.y0, p);
      let vx = p[0] - a[0];
      let vy = p[1] - a[1];
      let vz = p[2] - a[2];
      const along = vx * ux + vy * uy + vz * uz;
      vx -= along * ux;
      vy -= along * uy;
      vz -= along * uz;
      let across = Math.sqrt(vx * vx + vy * vy + vz * vz);
      if (across < 1e-9) {
        // Any direction square to the line, in the plane of x and y unless the line stands steeply on it.
        const steep = Math.abs(uz) > 0.9;
        vx = steep ? 0 : -uy;
        vy = steep ? -uz : ux;
        vz = steep ? uy : 0;
        across = Math.sqrt(vx * vx + vy * vy + vz * vz);
      }
      writePose(poses, panel, a[0], a[1], a[2], ux, uy, uz, vx / across, vy / across, vz / across);
      for (let i = 1; i < supports.length; i++) {
        const { line, panel: on } = supports[i];
        const mine = own[i];
        worldPoint(poses, on, line.x0, line.y0, p);
        worldPoint(poses, panel, mine.x0, mine.y0, q);
        const offStart = alongNormal(poses, panel, p, q);
        const atStart = distance(p, q);
        worldPoint(poses, on, line.x1, line.y1, p);
        worldPoint(poses, panel, mine.x1, mine.y1, q);
        const offEnd = alongNormal(poses, panel, p, q);
        const atEnd = distance(p, q);
        const whole = Math.max(atStart, atEnd);
        const inPlane = Math.sqrt(
          Math.max(0, atStart * atStart - offStart * offStart, atEnd * atEnd - offEnd * offEnd),
        );
        const slot = misfit + 2 * (i - 1);
        misfits[slot] = inPlane < 1e-6 ? 0 : inPlane;
        misfits[slot + 1] = whole < 1e-6 ? 0 : whole;
      }
    },
  };
}

const distance = (p: Float64Array, q: Float64Array): number =>
  Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);

/** How far p lies from q along the normal of a panel, mm. */
function alongNormal(poses: Float64Array, panel: number, p: Float64Array, q: Float64Array): number {
  const i = panel * POSE;
  return (p[0] - q[0]) * poses[i + 2] + (p[1] - q[1]) * poses[i + 6] + (p[2] - q[2]) * poses[i + 10];
}
