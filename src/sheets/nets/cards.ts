import {
  alongAndLeft,
  direction,
  distance,
  type Point,
  ringOf,
  running,
  type Segment,
  type Shape,
  segmentOf,
} from '../../geometry/plane.js';
import type { Assembly, Joint } from '../../motion/assembly.js';

export type CreaseJoint = Extract<Joint, { kind: 'crease' }>;

/** Corners drawn this near to a crease are meant to lie on it, mm: finer than a knife, coarser than a rounded drawing. */
const MEANT = 0.1;

/**
 * The card of every panel, in its own frame. Corners that a drawn outline puts within 0.1 mm of a crease are moved onto
 * it, so that the two panels of a crease share their edge exactly.
 */
export function cardsOf(assembly: Assembly): Shape[] {
  const lines: Segment[][] = assembly.panels.map(() => []);
  for (const joint of assembly.joints)
    if (joint.kind === 'crease')
      joint.between.forEach((panel, i) => {
        lines[panel].push(segmentOf(joint.lines[i]));
      });
  return assembly.panels.map(({ outline, holes }, panel) => ({
    outline: running(
      ringOf(outline).map((p) => onto(lines[panel], p)),
      1,
    ),
    holes: holes.map((hole) => running(ringOf(hole), -1)),
  }));
}

function onto(lines: readonly Segment[], p: Point): Point {
  for (const line of lines) {
    const [along, left] = alongAndLeft(line, p);
    if (Math.abs(left) > MEANT || along < -MEANT || along > distance(...line) + MEANT) continue;
    const [ex, ey] = direction(line);
    return [line[0][0] + along * ex, line[0][1] + along * ey];
  }
  return p;
}
