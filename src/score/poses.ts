import type { Line } from '../geometry/line.js';
import type { Assembly } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';
import { POSE } from '../motion/pose.js';
import type { Scorecard } from './scorecard.js';

type Point = [number, number];

/**
 * The motion as data that can be verified without our code: the document of `check --poses`. Outlines, holes, lines and
 * points are in a panel's own plane; a world point is R·(x, y, 0) + t. Lengths in mm, angles in degrees.
 */
export interface PosesDocument {
  readonly format: 'poses 1';
  readonly panels: readonly { name: string; piece: string; outline: Point[]; holes: Point[][] }[];
  readonly joints: readonly object[];
  readonly frames: readonly { pageAngle: number; poses: number[][] }[];
  readonly scorecard: Scorecard;
}

/** Writes out an opening that has been run. */
export function posesDocument(assembly: Assembly, opening: Opening, scorecard: Scorecard): PosesDocument {
  const name = (k: number) => assembly.panels[k].name;
  const frames = [];
  for (let frame = 0; frame < opening.count; frame++) {
    const poses = opening.frame(frame);
    frames.push({
      pageAngle: opening.pageAngles[frame],
      poses: assembly.panels.map((_, k) => Array.from(poses.subarray(k * POSE, (k + 1) * POSE))),
    });
  }
  return {
    format: 'poses 1',
    panels: assembly.panels.map(({ name, piece, outline, holes }) => ({
      name,
      piece,
      outline: pointsOf(outline),
      holes: holes.map(pointsOf),
    })),
    joints: assembly.joints.map((joint) => {
      const between = joint.between.map(name);
      if (joint.kind === 'slot') return { kind: joint.kind, between, hole: joint.hole };
      if (joint.kind === 'slide' && joint.neck !== undefined) {
        const { link, lines, ...sizes } = joint.neck;
        return { ...joint, between, neck: { link: name(link), lines: lines.map(ends), ...sizes } };
      }
      if (joint.kind !== 'crease') return { ...joint, between };
      return { kind: joint.kind, between, lines: joint.lines.map(ends), closesLoop: joint.closesLoop };
    }),
    frames,
    scorecard,
  };
}

const ends = (line: Line): [Point, Point] => [
  [line.x0, line.y0],
  [line.x1, line.y1],
];

function pointsOf(ring: Float64Array): Point[] {
  const points: Point[] = [];
  for (let i = 0; i < ring.length; i += 2) points.push([ring[i], ring[i + 1]]);
  return points;
}
