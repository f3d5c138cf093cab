import * as z from 'zod';
import { cutToSide } from '../geometry/convex-cut.js';
import type { Line } from '../geometry/line.js';
import { moveOntoLine } from '../geometry/onto-line.js';
import { signedArea } from '../geometry/polygon.js';
import type { Assembly } from '../motion/assembly.js';
import { copyPose } from '../motion/pose.js';
import { type Flat, type Footing, lengthOf, lineBetween, moved, unit } from './attach.js';
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
    /** The crease that its part stands on, where that is not the gutter. */
    readonly beside?: Footing;
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
  const whole = Float64Array.of(
    line.x0,
    line.y0,
    line.x1,
    line.y1,
    line.x1 - ex * cut + nx,
    line.y1 - ey * cut + ny,
    line.x0 + ex * cut + nx,
    line.y0 + ey * cut + ny,
  );
  const outline = tab.beside === undefined ? whole : awayFrom(tab.beside, whole, line);
  growAround(assembly, receiver, [...outline]);
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

/** Glue this near to a crease that moves, mm, would set it. (Common practice, no source.) */
export const FROM_CREASE = 2;

/**
 * A tab less what reaches over the crease that its part stands on, and a strip beside that: as wide as the tab reaches over it, up to a margin,
 * so that nothing jumps. One of which nothing would be left stays as it is.
 */
function awayFrom({ at, along, inward }: Footing, tab: Float64Array, line: Line): Float64Array {
  let over = 0;
  for (let i = 0; i < tab.length; i += 2)
    over = Math.max(over, inward[0] * (at[0] - tab[i]) + inward[1] * (at[1] - tab[i + 1]));
  if (over < OFF) return tab;
  const from = moved(at, inward, Math.min(FROM_CREASE, over));
  const side = along[0] * inward[1] > along[1] * inward[0] ? 1 : -1;
  const left = cutToSide(tab, lineBetween(from, moved(from, along, 1)), side);
  if (left.length < 6 || Math.abs(signedArea(left)) < OFF) return tab;
  moveOntoLine(left, line);
  return left;
}

/** Less than this is round-off, mm and mm². */
const OFF = 1e-6;
