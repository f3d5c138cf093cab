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
  const at = areasByPanel(nets);
  const bonds: Bond[] = joins.map((join) => joinBond(join, at));
  const tabOf = new Map(tabs.map((tab) => [tab.panel, tab]));
  for (const joint of assembly.joints) {
    if (joint.kind !== 'glue') continue;
    const [receiver, panel] = joint.between;
    const tab = tabOf.get(panel);
    if (tab !== undefined) {
      const bond = useless.has(panel) ? null : tabBond(tab, at(panel), at(receiver));
      if (bond !== null) bonds.push(bond);
      continue;
    }
    const bond = flatBond(assembly, [receiver, panel], joint.face ?? 1, keepOuts, at);
    const names = `'${assembly.panels[panel].name}' and '${assembly.panels[receiver].name}'`;
    if (bond === null) notes.push(`${names} are to be glued together, but their card does not overlap.`);
    else bonds.push(bond);
  }
  return bonds;
}

/** A panel laid flat: its net, its place among the areas of that, and itself. */
interface Laid {
  readonly net: Net;
  readonly area: number;
  readonly own: Area;
}

function areasByPanel(nets: readonly Net[]): (panel: number) => Laid {
  const where = new Map<number, Laid>();
  for (const net of nets)
    net.areas.forEach((own, area) => {
      if (own.panel >= 0) where.set(own.panel, { net, area, own });
    });
  return (panel) => {
    const found = where.get(panel);
    if (found === undefined) throw new Error(`panel ${panel} is in no net`);
    return found;
  };
}

/** A place of glue on what is laid flat. @param face of the panel's own frame */
const spotOn = ({ net, area, own }: Laid, shapes: readonly Shape[], face: number): Spot => ({
  net,
  area,
  shapes,
  face: faceOn(own, face),
});

/** The tab that joins a piece again where it was split. */
function joinBond(
  { net, area, receiver, receiverFace, shape, line }: Join,
  at: (panel: number) => Laid,
): Bond {
  const to = at(receiver);
  const own = net.areas[area];
  return {
    of: 'join',
    giver: spotOn({ net, area, own }, [own.shape], -receiverFace),
    receiver: spotOn(to, [movedShape(to.own.place, shape)], receiverFace),
    line: onNet(to.own.place, line),
    slit: null,
  };
}

/** The glue of a tab: of one that could not be cut back enough, as much as lies on the card of its receiver; null where none does. */
function tabBond({ receiverFace, line, slit }: Tab, from: Laid, to: Laid): Bond | null {
  const toReceiver = after(to.own.place, undoing(from.own.place));
  const shapes = overlapOf(movedShape(toReceiver, from.own.shape), to.own.shape);
  if (shapes.length === 0) return null;
  const back = undoing(toReceiver);
  return {
    of: 'tab',
    giver: spotOn(
      from,
      shapes.map((shape) => movedShape(back, shape)),
      -receiverFace,
    ),
    receiver: spotOn(to, shapes, receiverFace),
    line: onNet(to.own.place, line),
    slit: slit === null ? null : onNet(to.own.place, slit),
  };
}

/** Glue of what lies flat on the face of another panel that is asked for: where the two overlap, clear of hubs; null where nowhere. */
function flatBond(
  assembly: Assembly,
  [receiver, panel]: readonly [number, number],
  on: 1 | -1,
  keepOuts: readonly KeepOut[],
  at: (panel: number) => Laid,
): Bond | null {
  const [to, from] = [at(receiver), at(panel)];
  const across = liesOn(assembly, panel, receiver);
  const toReceiver = after(to.own.place, after(across, undoing(from.own.place)));
  const discs = keepOuts.flatMap(({ panel: pinned, at: middle, radius }) => {
    const place = pinned === receiver ? to.own.place : pinned === panel ? after(to.own.place, across) : null;
    return place === null ? [] : [solid(circle(moved(place, middle), radius))];
  });
  const shapes = overlapOf(movedShape(toReceiver, from.own.shape), to.own.shape).flatMap((shape) =>
    discs.length === 0 ? [shape] : less(shape, ...discs),
  );
  if (shapes.length === 0) return null;
  const back = undoing(toReceiver);
  return {
    of: 'piece',
    // It lies on its back; turned over, on its face.
    giver: spotOn(
      from,
      shapes.map((shape) => movedShape(back, shape)),
      -across.flip * on,
    ),
    receiver: spotOn(to, shapes, on),
    line: null,
    slit: null,
  };
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
