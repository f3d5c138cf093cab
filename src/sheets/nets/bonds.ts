import {
  after,
  circle,
  type Isometry,
  moved,
  movedShape,
  type Segment,
  type Shape,
  undoing,
} from '../../geometry/plane.js';
import { less, overlapOf, solid } from '../../geometry/region.js';
import type { Assembly } from '../../motion/assembly.js';
import { POSE } from '../../motion/pose.js';
import type { KeepOut } from './cut-back.js';
import type { Area, Join, Net } from './net.js';
import type { Tab } from './tabs.js';

/** One place of glue: what carries it, what receives it, and where on each. */
export interface Bond {
  readonly of: 'tab' | 'join' | 'piece';
  readonly giver: Spot;
  readonly receiver: Spot;
  /** Where the crease sits on the receiver, in its net's coordinates; null where a piece is glued on flat. */
  readonly line: Segment | null;
  /** The slit on the receiver's net through which the giver passes, to be glued behind; null where there is none. */
  readonly slit: Segment | null;
}

/** A glue area on a net. */
export interface Spot {
  readonly net: Net;
  /** Place in the net's areas. */
  readonly area: number;
  /** In the net's coordinates, seen from the printed face. More than one where holes or edges part it. */
  readonly shapes: readonly Shape[];
  /** +1 on the printed face, −1 on the back. */
  readonly face: 1 | -1;
}

/**
 * Every glue joint of the figure and every join tab, in the order in which the parts were added.
 * @param useless panels of tabs that cannot be glued: they have no glue and no letter
 * @param notes what a maker should know is added here
 */
export function bondsOf(
  assembly: Assembly,
  nets: readonly Net[],
  joins: readonly Join[],
  tabs: readonly Tab[],
  keepOuts: readonly KeepOut[],
  useless: ReadonlySet<number>,
  notes: string[],
): Bond[] {
  const where = new Map<number, { net: Net; area: number }>();
  for (const net of nets)
    net.areas.forEach(({ panel }, area) => {
      if (panel >= 0) where.set(panel, { net, area });
    });
  const at = (panel: number): { net: Net; area: number; own: Area } => {
    const found = where.get(panel);
    if (found === undefined) throw new Error(`panel ${panel} is in no net`);
    return { ...found, own: found.net.areas[found.area] };
  };
  const bonds: Bond[] = joins.map(({ net, area, receiver, receiverFace, shape, line }) => {
    const { own, ...to } = at(receiver);
    const tab = net.areas[area];
    return {
      of: 'join',
      giver: { net, area, shapes: [tab.shape], face: faceOn(tab, -receiverFace) },
      receiver: { ...to, shapes: [movedShape(own.place, shape)], face: faceOn(own, receiverFace) },
      line: onNet(own.place, line),
      slit: null,
    };
  });
  const tabOf = new Map(tabs.map((tab) => [tab.panel, tab]));
  for (const joint of assembly.joints) {
    if (joint.kind !== 'glue') continue;
    const [receiver, panel] = joint.between;
    const { own: receiving, ...to } = at(receiver);
    const { own: giving, ...from } = at(panel);
    const tab = tabOf.get(panel);
    if (tab !== undefined) {
      const toReceiver = after(receiving.place, undoing(giving.place));
      // Of a tab that could not be cut back enough, as much as lies on the card of its receiver.
      const shapes = useless.has(panel)
        ? []
        : overlapOf(movedShape(toReceiver, giving.shape), receiving.shape);
      if (shapes.length === 0) continue;
      const back = undoing(toReceiver);
      bonds.push({
        of: 'tab',
        giver: {
          ...from,
          shapes: shapes.map((shape) => movedShape(back, shape)),
          face: faceOn(giving, -tab.receiverFace),
        },
        receiver: { ...to, shapes, face: faceOn(receiving, tab.receiverFace) },
        line: onNet(receiving.place, tab.line),
        slit: tab.slit === null ? null : onNet(receiving.place, tab.slit),
      });
      continue;
    }
    // Glued on flat, on the face of the receiver that is asked for: where the two overlap, clear of hubs.
    const on = joint.face ?? 1;
    const across = liesOn(assembly, panel, receiver);
    const toReceiver = after(receiving.place, after(across, undoing(giving.place)));
    const discs = keepOuts.flatMap(({ panel: pinned, at: middle, radius }) => {
      const place =
        pinned === receiver ? receiving.place : pinned === panel ? after(receiving.place, across) : null;
      return place === null ? [] : [solid(circle(moved(place, middle), radius))];
    });
    const shapes = overlapOf(movedShape(toReceiver, giving.shape), receiving.shape).flatMap((shape) =>
      discs.length === 0 ? [shape] : less(shape, ...discs),
    );
    const names = `'${assembly.panels[panel].name}' and '${assembly.panels[receiver].name}'`;
    if (shapes.length === 0) {
      notes.push(`${names} are to be glued together, but their card does not overlap.`);
      continue;
    }
    const back = undoing(toReceiver);
    bonds.push({
      of: 'piece',
      // It lies on its back; turned over, on its face.
      giver: {
        ...from,
        shapes: shapes.map((shape) => movedShape(back, shape)),
        face: faceOn(giving, -across.flip * on),
      },
      receiver: { ...to, shapes, face: faceOn(receiving, on) },
      line: null,
      slit: null,
    });
  }
  return bonds;
}

/** The face of the sheet that is the given face of a panel's own frame. */
function faceOn({ place }: Area, ownFace: number): 1 | -1 {
  return (ownFace * place.flip) as 1 | -1;
}

function onNet(place: Isometry, [a, b]: Segment): Segment {
  return [moved(place, a), moved(place, b)];
}

/** How a panel that is glued flat on another lies in the other's frame, read off the open figure. */
export function liesOn(assembly: Assembly, panel: number, on: number): Isometry {
  const poses = assembly.open;
  const [i, j] = [panel * POSE, on * POSE];
  const inFrame = (axis: number, d: readonly number[]) =>
    [0, 4, 8].reduce((sum, row, k) => sum + poses[j + row + axis] * d[k], 0);
  const column = (axis: number) => [0, 4, 8].map((row) => poses[i + row + axis]);
  const from = [0, 4, 8].map((row) => poses[i + row + 3] - poses[j + row + 3]);
  const x = column(0);
  const turn = Math.atan2(inFrame(1, x), inFrame(0, x));
  const facing = inFrame(2, column(2));
  return {
    c: Math.cos(turn),
    s: Math.sin(turn),
    x: inFrame(0, from),
    y: inFrame(1, from),
    flip: facing < 0 ? -1 : 1,
  };
}
