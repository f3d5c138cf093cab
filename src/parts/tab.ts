import * as z from 'zod';
import type { Line } from '../geometry/line.js';
import type { Assembly } from '../motion/assembly.js';
import { copyPose } from '../motion/pose.js';
import { type Flat, lengthOf, unit } from './attach.js';
import { angle, type Resolved, size, word } from './fields.js';
import { growAround } from './grow.js';

/**
 * Fields of a glue tab. The crease lies on the glue line; the tab lies beside it, glued to what the part stands on.
 * Its ends are mitred, so that neighbouring tabs don't meet in a corner. (Common practice, no source.)
 */
export const tabFields = z
  .strictObject({
    /** Width across, mm. */
    width: size().prefault(8),
    /** On which side of the glue line: towards the parent's crease (inner) or away from it. */
    side: word('inner', 'outer').prefault('inner'),
    /** Angle at which its ends are cut, from the crease, degrees: 90 is square. */
    mitre: angle(15, 90).prefault(45),
  })
  .prefault({});

export type TabFields = Resolved<z.output<typeof tabFields>>;

/**
 * Adds a glue tab along a line of the panel that receives it, with its joints: glued to the receiver, creased to the
 * panel it belongs to. It lies in the receiver's frame.
 * @param inner unit direction in the receiver's plane, square to the line, of its inner side
 * @param panelLine the same line in the frame of the panel that the tab belongs to
 * @returns the index of the crease joint between panel and tab
 */
export function addTab(
  assembly: Assembly,
  tab: {
    readonly name: string;
    readonly part: string;
    readonly piece: string;
    readonly receiver: number;
    readonly panel: number;
    readonly line: Line;
    readonly panelLine: Line;
    readonly inner: Flat;
  },
  fields: TabFields,
): number {
  const { line, receiver } = tab;
  const [ex, ey] = unit(line);
  const long = lengthOf(line);
  const cut = Math.min(fields.width / Math.tan((fields.mitre * Math.PI) / 180), 0.4 * long);
  const way = fields.side === 'inner' ? fields.width : -fields.width;
  const nx = tab.inner[0] * way;
  const ny = tab.inner[1] * way;
  const outline = [
    line.x0,
    line.y0,
    line.x1,
    line.y1,
    line.x1 - ex * cut + nx,
    line.y1 - ey * cut + ny,
    line.x0 + ex * cut + nx,
    line.y0 + ey * cut + ny,
  ];
  growAround(assembly, receiver, outline);
  const panel = assembly.addPanel({
    name: tab.name,
    part: tab.part,
    piece: tab.piece,
    role: 'tab',
    gluedTo: receiver,
    outline,
  });
  assembly.addJoint({ kind: 'glue', between: [receiver, panel] });
  assembly.addStep({ part: tab.part, hangsOn: receiver, place: (poses) => copyPose(poses, receiver, panel) });
  return assembly.addJoint({
    kind: 'crease',
    between: [panel, tab.panel],
    lines: [line, tab.panelLine],
    closesLoop: false,
    of: 'foot',
  });
}
