import {
  direction,
  distance,
  moved,
  movedShape,
  ontoLine,
  type Point,
  type Ring,
  type Segment,
  type Shape,
} from '../../geometry/plane.js';
import { overlapOf, solid, totalArea } from '../../geometry/region.js';
import type { Assembly } from '../../motion/assembly.js';
import { sideOf } from './card-side.js';
import { mostAlong } from './cut-back.js';
import { fromBehind } from './fold-sense.js';
import type { Link } from './links.js';
import type { Net, Unfolded } from './net.js';

/** Width of a join tab, mm. */
const WIDTH = 8;

/**
 * Joins two parts of a piece again that were split at a crease: a tab on one, folded at the crease and glued flat to
 * the other. A tab that was split from its owner becomes a strip with two wings; its second wing is made here.
 */
export function joinAcross(assembly: Assembly, cards: readonly Shape[], link: Link, out: Unfolded): void {
  const nets = link.panels.map((panel) => netWith(out.nets, panel));
  const first = ({ areas }: Net) => Math.min(...areas.map(({ panel }) => (panel < 0 ? Infinity : panel)));
  const child = link.tab !== null || first(nets[1]) >= first(nets[0]) ? 1 : 0;
  const parent = 1 - child;
  const net = nets[child];
  const receiver = link.panels[parent];
  const parentLine = link.lines[parent];
  // In the receiver's own frame, beyond the crease from the part that carries it: over the receiver's card.
  const shape = mostAlong(
    overlapOf(mitred(parentLine, sideOf(cards[receiver], parentLine)), cards[receiver]),
    { line: parentLine, side: sideOf(cards[receiver], parentLine) },
  );
  const names = link.panels.map((panel) => `'${assembly.panels[panel].name}'`);
  if (shape === null) {
    out.notes.push(`There is no card for a join tab between ${names.join(' and ')}.`);
    return;
  }
  const at = net.areas.findIndex(({ panel }) => panel === link.panels[child]);
  const place = net.areas[at].place;
  const childLine: Segment = [moved(place, link.lines[child][0]), moved(place, link.lines[child][1])];
  // Turned over or not as the receiver would be, were the two still in one.
  const toNet = ontoLine(parentLine, childLine, (place.flip * link.flat.flip) as 1 | -1);
  const inNet = movedShape(toNet, shape);
  for (const other of net.areas)
    if (totalArea(overlapOf(other.shape, inNet)) > 0.05)
      out.notes.push(`The join tab between ${names.join(' and ')} would lie over '${other.name}': trim it.`);
  const area =
    net.areas.push({
      name: `join ${names[child]} to ${names[parent]}`,
      kind: 'join',
      panel: -1,
      shape: inNet,
      place: toNet,
    }) - 1;
  const seen = child === 0 ? place.flip : toNet.flip;
  net.folds.push({
    between: [at, area],
    line: childLine,
    sense: seen === 1 ? link.sense : fromBehind(link.sense),
    joint: link.joint,
  });
  // Out of sight behind, but for a strip: that lies on the face towards which the crease folds.
  const onto = netWith(out.nets, receiver).areas.find(({ panel }) => panel === receiver);
  const behind = -(onto?.place.flip ?? 1) as 1 | -1;
  const receiverFace = link.tab === null ? behind : link.sense === 'mountain' ? -1 : 1;
  out.joins.push({ net, area, receiver, receiverFace, shape, line: parentLine });
}

function netWith(nets: readonly Net[], panel: number): Net {
  const net = nets.find(({ areas }) => areas.some((area) => area.panel === panel));
  if (net === undefined) throw new Error(`panel ${panel} is in no net`);
  return net;
}

/** A tab along the left (1) or right (−1) of a line, its ends cut at 45°. */
function mitred(line: Segment, side: 1 | -1): Shape {
  const [ex, ey] = direction(line);
  const long = distance(...line);
  const cut = Math.min(WIDTH, 0.4 * long);
  const at = (along: number, out: number): Point => [
    line[0][0] + along * ex - side * out * ey,
    line[0][1] + along * ey + side * out * ex,
  ];
  const ring: Ring = [at(0, 0), at(long, 0), at(long - cut, WIDTH), at(cut, WIDTH)];
  return solid(ring);
}
