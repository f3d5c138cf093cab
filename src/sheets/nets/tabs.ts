import {
  direction,
  distance,
  distanceTo,
  edgesOf,
  onCard,
  type Point,
  type Segment,
  type Shape,
  segmentOf,
} from '../../geometry/plane.js';
import { type Assembly, LEFT_PAGE, RIGHT_PAGE } from '../../motion/assembly.js';
import { sideOf } from './card-side.js';
import type { CreaseJoint } from './cards.js';
import { type Frames, faceStoodOn, type Sense, senseOf } from './fold-sense.js';

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
  /** −1 when it is turned over, beside its owner, from how it lies on its receiver. */
  readonly flip: 1 | -1;
  /** The face of the receiver that it is glued to: +1 printed, −1 back. */
  readonly receiverFace: 1 | -1;
  readonly sense: Sense;
  /** The slit in the page, in its frame, through which it passes to be glued behind; null where it does not. */
  readonly slit: Segment | null;
}

/**
 * Finds every tab with a receiver and a crease to a panel.
 *
 * A tab lies in the receiver's frame. Unfolded, it must lie beyond its crease from its owner. Of the two motions that
 * take its line onto its owner's, the turn keeps its side of the line and the mirroring changes it, so it is the
 * mirroring where both lie on the same side.
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
    const slit =
      behindPage && (receiver === LEFT_PAGE || receiver === RIGHT_PAGE)
        ? slitAlong(cards[receiver], line)
        : null;
    const stoodOn = faceStoodOn(frames, receiver, ownerAtCrease);
    const receiverFace = (slit === null ? stoodOn : -stoodOn) as 1 | -1;
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
      sense: senseOf(frames, ownerAtCrease, tabAtCrease),
      slit,
    });
  }
  return tabs;
}

/** Least card between the end of a slit and an edge of the page, or the gutter, mm. (Common practice, no source.) */
const SLIT_MARGIN = 4;

/** As much of a glue line as can be slit without coming too near to an edge; null where that is nothing. */
function slitAlong(card: Shape, line: Segment): Segment | null {
  const [ex, ey] = direction(line);
  const edges = [card.outline, ...card.holes].flatMap(edgesOf);
  const at = (along: number): Point => [line[0][0] + along * ex, line[0][1] + along * ey];
  const clear = (along: number) =>
    onCard(card, at(along)) && edges.every((edge) => distanceTo(edge, at(along)) >= SLIT_MARGIN);
  const long = distance(...line);
  let [from, to] = [0, long];
  while (from < to && !clear(from)) from += 0.1;
  while (to > from && !clear(to)) to -= 0.1;
  return to - from < 3 ? null : [at(from), at(to)];
}
