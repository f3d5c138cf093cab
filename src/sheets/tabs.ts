import { type Assembly, LEFT_PAGE, RIGHT_PAGE } from '../motion/assembly.js';
import { sideOf } from './card-side.js';
import type { CreaseJoint } from './cards.js';
import { type Frames, faceStoodOn, type Sense, senseOf } from './fold-sense.js';
import { type Segment, type Shape, segmentOf } from './plane.js';

/** A glue tab: which panel it belongs to, what it is glued to, and how it lies once it is unfolded beside its panel. */
export interface Tab {
  readonly panel: number;
  readonly owner: number;
  readonly receiver: number;
  readonly joint: number;
  /** Its crease, in the receiver's frame (which is the tab's own) and in its owner's. */
  readonly line: Segment;
  readonly ownerLine: Segment;
  /** The side of `line` on which the tab lies, and of `ownerLine` on which its owner does: +1 left. */
  readonly side: 1 | -1;
  readonly ownerSide: 1 | -1;
  /** −1 when its printed face looks the other way than its receiver's. */
  readonly flip: 1 | -1;
  /** The face of the receiver that it is glued to: +1 printed, −1 back. */
  readonly receiverFace: 1 | -1;
  /** The face of the tab itself that carries the glue. */
  readonly ownFace: 1 | -1;
  readonly sense: Sense;
  /** Passes through a slit in the page and is glued behind it. */
  readonly throughSlit: boolean;
}

/**
 * Finds every tab with a receiver and a crease to a panel.
 *
 * A tab lies in the receiver's frame. Unfolded, it must lie beyond its crease from its owner. Of the two motions that
 * take its line onto its owner's, the turn keeps its side of the line and the mirroring changes it, so it is the
 * mirroring where both lie on the same side. Mirrored, its printed face looks against the receiver's; lying on the
 * printed face of the receiver it then touches it with its own printed face, else with its back.
 */
export function tabsOf(
  assembly: Assembly,
  cards: readonly Shape[],
  frames: Frames,
  behindPage: boolean,
): Tab[] {
  const creases = new Map<number, number>();
  assembly.joints.forEach((joint, i) => {
    if (joint.kind === 'crease' && joint.of === 'foot') creases.set(joint.between[0], i);
  });
  const tabs: Tab[] = [];
  for (const glue of assembly.joints) {
    if (glue.kind !== 'glue') continue;
    const [receiver, panel] = glue.between;
    const joint = creases.get(panel);
    if (joint === undefined) continue;
    const crease = assembly.joints[joint] as CreaseJoint;
    const owner = crease.between[1];
    const [line, ownerLine] = crease.lines.map(segmentOf);
    const side = sideOf(cards[panel], line);
    const ownerSide = sideOf(cards[owner], ownerLine);
    const flip = side === ownerSide ? -1 : 1;
    const ownerAtCrease = { panel: owner, line: crease.lines[1], side: ownerSide };
    const tabAtCrease = { panel, line: crease.lines[0], side };
    const throughSlit = behindPage && (receiver === LEFT_PAGE || receiver === RIGHT_PAGE);
    const stoodOn = faceStoodOn(frames, receiver, ownerAtCrease);
    const receiverFace = (throughSlit ? -stoodOn : stoodOn) as 1 | -1;
    tabs.push({
      panel,
      owner,
      receiver,
      joint,
      line,
      ownerLine,
      side,
      ownerSide,
      flip,
      receiverFace,
      ownFace: (flip === -receiverFace ? 1 : -1) as 1 | -1,
      sense: senseOf(frames, ownerAtCrease, tabAtCrease),
      throughSlit,
    });
  }
  return tabs;
}
