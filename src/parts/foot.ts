import type { Line } from '../geometry/line.js';
import type { Assembly } from '../motion/assembly.js';
import { besideOf, type Flat, type Stance, unit } from './attach.js';
import { addTab, type TabFields } from './tab.js';

/** One side of a fold where it stands on a panel. */
export interface Foot {
  /** What its tab and creases are called after. @example 'man left' */
  readonly name: string;
  readonly part: string;
  readonly piece: string;
  readonly stance: Stance;
  /** Left (0) or right. */
  readonly side: 0 | 1;
  readonly receiver: number;
  readonly panel: number;
  /** The line in the plane of the receiver, and in that of the panel. */
  readonly lines: readonly [Line, Line];
  /** Unit direction in the receiver's plane, square to the line, of the inner side. */
  readonly inner: Flat;
  readonly points: 'in' | 'out';
}

/** Glues a panel along its line, or creases it there to the sheet that it is cut from; and the creases on either side. */
export function addFoot(assembly: Assembly, foot: Foot, joined: { tab: TabFields } | 'same sheet'): void {
  const { name, part, piece, stance, side, receiver, panel, lines, inner } = foot;
  const [line, panelLine] = lines;
  if (joined === 'same sheet')
    assembly.addJoint({
      kind: 'crease',
      between: [receiver, panel],
      lines: [line, panelLine],
      closesLoop: false,
      of: 'fold',
    });
  else {
    const beside = besideOf(stance, stance.footings[side]);
    const tab = { name: `${name} tab`, part, piece, receiver, panel, line, panelLine, inner, ...beside };
    addTab(assembly, tab, joined.tab);
  }
  addFootCreases(assembly, foot);
}

/**
 * Adds the two creases on which a later part may stand at a foot: on the inner and on the outer side of its line. Of a
 * fold that points out and whose sides differ, either panel may stand on either face: so which is read off the figure.
 */
function addFootCreases(assembly: Assembly, foot: Foot): void {
  const { stance, side: ofFold, lines, inner } = foot;
  const flatSide = ofFold === 0 ? stance.flatSide : stance.otherFlatSide;
  /** On which side of the receiver's face the panel stands. */
  const faceSide = foot.points === 'in' ? flatSide : -flatSide;
  const [ex, ey] = unit(lines[0]);
  const left = -ey * inner[0] + ex * inner[1] > 0 ? 1 : -1;
  for (const [word, side] of [
    ['inner', left],
    ['outer', -left],
  ] as const)
    assembly.addCrease(
      {
        name: `${foot.name} foot ${word}`,
        between: [foot.receiver, foot.panel],
        lines,
        sides: [side as 1 | -1, ofFold === 0 ? 1 : -1],
        // (n₁ × n₂)·L with n₂ rising from the receiver's face on `faceSide`: side · faceSide.
        sense: (side * faceSide) as 1 | -1,
      },
      true,
    );
}
