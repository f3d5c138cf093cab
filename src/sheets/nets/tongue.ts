import type { Line } from '../../geometry/line.js';
import { direction, edgesOf, middle, type Point, ringOf } from '../../geometry/plane.js';
import type { Assembly, Joint } from '../../motion/assembly.js';

/** A tongue and the limb that ends in it, with the crease between them in the frame of each. */
export interface Tongue {
  readonly panels: readonly [number, number];
  readonly lines: readonly [Line, Line];
  /** The panel with the slit. */
  readonly holder: number;
}

/**
 * The tongue that slides by this joint, if it is a tongue's: a tab that slides in the same slit as a limb of its piece.
 * No joint tells of the crease between them: it lies along the foot of the tongue, and at the point of the limb that
 * slides, along the limb's edge there.
 */
export function tongueOf(assembly: Assembly, index: number): Tongue | null {
  const joint = assembly.joints[index];
  if (joint.kind !== 'slide') return null;
  const [tail, holder] = joint.between;
  const { role, piece, outline } = assembly.panels[tail];
  if (role !== 'tab') return null;
  const limb = assembly.joints
    .filter(
      (other): other is Extract<Joint, { kind: 'slide' }> =>
        other.kind === 'slide' && other.between[1] === holder,
    )
    .find(({ between: [panel], along }) => {
      const own = assembly.panels[panel];
      return (
        own.role === 'card' &&
        own.piece === piece &&
        along.flat().every((v, i) => v === joint.along.flat()[i])
      );
    });
  if (limb === undefined) return null;
  const foot = ringOf(outline).filter(([, y]) => Math.abs(y - joint.point[1]) < 1e-6);
  const breadth = Math.max(...foot.map(([x]) => x)) - Math.min(...foot.map(([x]) => x));
  const [px, py] = limb.point;
  const off = (edge: readonly [Point, Point]) => {
    const [x, y] = middle(edge);
    return Math.hypot(x - px, y - py);
  };
  const edge = edgesOf(ringOf(assembly.panels[limb.between[0]].outline)).reduce((a, b) =>
    off(b) < off(a) ? b : a,
  );
  const [ex, ey] = direction(edge);
  const half = breadth / 2;
  return {
    panels: [limb.between[0], tail],
    holder,
    lines: [
      { x0: px - half * ex, y0: py - half * ey, x1: px + half * ex, y1: py + half * ey },
      { x0: -half, y0: joint.point[1], x1: half, y1: joint.point[1] },
    ],
  };
}
