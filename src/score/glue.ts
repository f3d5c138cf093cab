import { overlapArea } from '../geometry/coverage.js';
import { convexHull } from '../geometry/hull.js';
import type { Line } from '../geometry/line.js';
import { zeros } from '../geometry/numbers.js';
import { cardArea, type Polygon } from '../geometry/polygon.js';
import { visitCells } from '../geometry/trapezoids.js';
import type { GlueFault } from '../limits/measured.js';
import type { Assembly } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';
import { POSE } from '../motion/pose.js';
import { isCoverFlap } from '../parts/kinds/cover-flap.js';
import { commonArea } from '../parts/trim-breaks.js';
import { liesOn, placedLine, placedPoint, placedRing, placedShape, placingIn } from './clash/bodies.js';

/** So near to a line where something moves, on either side, glue would set it, mm. (Common practice, no source.) */
export const GLUE_MARGIN = 2;
/** Areas smaller than this, mm², are round-off and corners that touch. */
const SPECK = 0.5;

/**
 * Where glue does not lie well; the greatest area first. Nothing of it changes while the page moves, so it is looked at
 * once.
 *
 * Panels that are glued flat to one another lie in one plane and move as one body. They have no thickness here, so what
 * lies between two of them has to follow from how the body is made. It is a stack, begun with the panel that is glued to
 * nothing. All others are laid on in the order of the figure file, each on one face of its receiver, and so over all that
 * lies on that side of the stack already. (On the face by which the receiver is itself glued, it can only lie right under
 * the receiver.) Then all card that has its place in the stack between a glued panel and its receiver, and overlaps their
 * glue, lies between them. Of two panels that overlap on one receiver one lies under the other in either order of gluing:
 * the order only says which of the two is at fault.
 *
 * A tab is glued all over, so there must be card under all of it. A flat piece is glued where it overlaps its receiver:
 * it may reach beyond, as an arm does, and lie over a window. What moves can't come between faces that are glued already;
 * but glue at a crease or a slit would set it, if what moves there is on the same side of the stack.
 */
export function findGlueFaults(assembly: Assembly, opening: Opening): GlueFault[] {
  const { panels, open } = assembly;
  const faces = layDown(assembly, opening);
  const toBeFree = faces.length > 0 ? placesToBeFree(assembly, opening, faces) : [];
  const faults: GlueFault[] = [];
  for (const face of faces) {
    const add = (kind: GlueFault['kind'], other: string, area: number) => {
      const [glued, receiver] = [panels[face.panel].name, panels[face.receiver].name];
      if (area > SPECK) faults.push({ glued, receiver, kind, other, area });
    };
    add('off card', panels[face.receiver].name, areaOff(face, assembly));
    for (const k of between(face)) {
      const card = placedShape(panels[k], placingIn(open, k, face.body));
      add('card between', panels[k].name, glueWithin(face, card));
    }
    for (const { kind, other, body, covered } of toBeFree)
      if (body === face.body) add(kind, other, covered(face));
  }
  return faults.sort((a, b) => b.area - a.area);
}

/** A panel that is glued on: by a tab's whole area, or a flat piece by what it shares with its receiver. */
interface Glued {
  readonly panel: number;
  readonly receiver: number;
  /** The panel that stands on it, where it is a tab; −1 for a flat piece. */
  readonly stands: number;
  readonly body: number;
  /** All panels of the body, from the lowest to the highest as its first panel faces. */
  readonly stack: readonly number[];
  /** On which side of its receiver it lies: 1 for up. */
  readonly side: Side;
  /** Both in the frame of the body. */
  readonly shape: Polygon;
  readonly under: Polygon;
}

type Side = 1 | -1;

/** All that is glued on, in order. */
function layDown(assembly: Assembly, opening: Opening): Glued[] {
  const { panels, joints, open } = assembly;
  const owners = new Map<number, number>();
  for (const { kind, between } of joints)
    if (kind === 'crease' && panels[between[0]].role === 'tab') owners.set(between[0], between[1]);
  const faces: Glued[] = [];
  const stacks = new Map<number, number[]>();
  const sides = new Map<number, Side>();
  for (const joint of joints) {
    if (joint.kind !== 'glue') continue;
    const [receiver, panel] = joint.between;
    const { body } = panels[panel];
    const stands = owners.get(panel) ?? -1;
    const under = sides.get(receiver);
    // A piece is laid on the face that it is said to lie on, as the sheets have it.
    const side = stands < 0 ? (joint.face ?? 1) : sideOf(assembly, opening, body, stands) || 1;
    const stack = stacks.get(body) ?? [body];
    const place = stack.indexOf(receiver);
    if (under === -side) stack.splice(side > 0 ? place + 1 : place, 0, panel);
    else if (side > 0) stack.push(panel);
    else stack.unshift(panel);
    stacks.set(body, stack);
    sides.set(panel, side);
    faces.push({
      panel,
      receiver,
      stands,
      body,
      stack,
      side,
      shape: placedShape(panels[panel], placingIn(open, panel, body)),
      under: placedShape(panels[receiver], placingIn(open, receiver, body)),
    });
  }
  return faces;
}

/** The panels that have their place between a glued panel and its receiver. */
function between({ panel, receiver, stack }: Glued): readonly number[] {
  const [low, high] = [stack.indexOf(panel), stack.indexOf(receiver)].sort((a, b) => a - b);
  return stack.slice(low + 1, high);
}

/** How much of the glue lies in a region, mm². */
function glueWithin({ stands, shape, under }: Glued, region: Polygon): number {
  const area = overlapArea(shape, region);
  return area <= SPECK || stands >= 0 ? area : commonArea([shape, under, region]);
}

/** How much of a tab no card of its body lies under; all of a flat piece that does not touch its receiver, mm². */
function areaOff({ shape, under, body, stands }: Glued, { panels, open }: Assembly): number {
  if (stands < 0) return overlapArea(shape, under) > SPECK ? 0 : cardArea(shape);
  if (liesOn(shape, under)) return 0;
  const card = panels.flatMap((panel, k) =>
    panel.body === body && panel.role === 'card' ? [placedShape(panel, placingIn(open, k, body))] : [],
  );
  let off = 0;
  visitCells([shape, ...card], [1, ...card.map(() => 2)], ({ weight, width, height }) => {
    if (weight === 1) off += width * height;
  });
  return off;
}

/** A place on a body that must stay free of what is glued on. */
interface ToBeFree {
  readonly kind: GlueFault['kind'];
  /** What is at the place, or moves there. */
  readonly other: string;
  readonly body: number;
  /** How much of it a glued panel covers, mm². */
  readonly covered: (face: Glued) => number;
}

/**
 * Slots; hubs; creases to other bodies; slits, on the side of the link that stands in them; and what the tail of its tongue
 * sweeps, on the other side.
 */
function placesToBeFree(assembly: Assembly, opening: Opening, faces: readonly Glued[]): ToBeFree[] {
  const { panels, joints, open } = assembly;
  const places: ToBeFree[] = [];
  const inBody = (k: number) => placingIn(open, k, panels[k].body);
  const sideOn = (on: number, mover: number) => sideOf(assembly, opening, panels[on].body, mover);
  const add = (kind: ToBeFree['kind'], other: string, on: number, covered: ToBeFree['covered']) =>
    places.push({ kind, other, body: panels[on].body, covered });
  const addCrease = (on: number, mover: number, own: Line) => {
    const line = placedLine(own, inBody(on));
    const stoodOn = faces.find(({ panel }) => panel === on)?.receiver;
    add('at a crease', panels[mover].name, on, (face) => {
      // It is at the glue if it is in or on the receiver, or in what lies between. Its own crease a tab has to have.
      const there = face.receiver === on || face.receiver === stoodOn || between(face).includes(on);
      if (!there || face.panel === on || !comesNear(line, face.shape)) return 0;
      return sideOn(on, mover) === face.side ? overlapArea(face.shape, band(line)) : 0;
    });
  };
  const addSlit = (on: number, mover: number, side: Side | 0, make: () => Polygon) => {
    const region = once(make);
    add('at a slit', panels[mover].name, on, (face) => {
      // A slit in what is glued on has the glue on its other side.
      const there =
        face.panel === on
          ? side === -face.side
          : side === face.side && (face.receiver === on || between(face).includes(on));
      return there ? glueWithin(face, region()) : 0;
    });
  };
  let standing: Side | 0 = 0;
  for (const joint of joints) {
    const [a, b] = joint.between;
    if (!faces.some(({ body }) => joint.between.some((k) => panels[k].body === body))) continue;
    switch (joint.kind) {
      case 'crease':
        if (panels[a].body === panels[b].body) break;
        addCrease(a, b, joint.lines[0]);
        addCrease(b, a, joint.lines[1]);
        break;
      case 'slot': {
        const hole = solid(placedRing(panels[b].holes[joint.hole], inBody(b)));
        add('over a slot', panels[a].name, b, ({ shape }) => overlapArea(shape, hole));
        break;
      }
      case 'pivot':
        joint.between.forEach((k, end) => {
          const shoulder = once(() => disc(placedPoint(joint.points[end], inBody(k)), joint.hub.shoulder));
          add('hub between', joint.part, k, (face) =>
            k === face.panel || (k === face.receiver && !isCoverFlap(assembly, face.panel))
              ? glueWithin(face, shoulder())
              : 0,
          );
        });
        break;
      case 'slide':
        // A tail's joint follows that of its link.
        if (panels[a].role === 'card') {
          const [[x0, y0], [x1, y1]] = joint.along;
          standing = sideOn(b, a);
          addSlit(b, a, standing, () => band(placedLine({ x0, y0, x1, y1 }, inBody(b))));
        } else addSlit(b, a, -standing as Side | 0, () => swept(assembly, opening, a, panels[b].body));
    }
  }
  return places;
}

/** Makes what most dummies never ask for, and many faces may, when it is first asked for. */
function once<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

/** All that a panel covers of a body in whose plane it slides along a line: convex, as a tail is. */
function swept({ panels }: Assembly, opening: Opening, panel: number, body: number): Polygon {
  const corners: number[] = [];
  for (let frame = 0; frame < opening.count; frame++)
    corners.push(...placedRing(panels[panel].outline, placingIn(opening.frame(frame), panel, body)));
  return solid(convexHull(corners));
}

/** Whether card may come within the margin of a line: not if all of it lies farther to one side, or beyond one end. */
function comesNear({ x0, y0, x1, y1 }: Line, { outline }: Polygon): boolean {
  const long = Math.hypot(x1 - x0, y1 - y0);
  const [ex, ey] = [(x1 - x0) / long, (y1 - y0) / long];
  let [back, ahead, right, left] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < outline.length; i += 2) {
    const [dx, dy] = [outline[i] - x0, outline[i + 1] - y0];
    const along = dx * ex + dy * ey;
    const across = dy * ex - dx * ey;
    back = Math.min(back, along);
    ahead = Math.max(ahead, along);
    right = Math.min(right, across);
    left = Math.max(left, across);
  }
  return left > -GLUE_MARGIN && right < GLUE_MARGIN && ahead > 0 && back < long;
}

/** All within the margin of a line. */
function band({ x0, y0, x1, y1 }: Line): Polygon {
  const long = Math.hypot(x1 - x0, y1 - y0);
  const [nx, ny] = [(-GLUE_MARGIN * (y1 - y0)) / long, (GLUE_MARGIN * (x1 - x0)) / long];
  return solid(Float64Array.of(x0 - nx, y0 - ny, x1 - nx, y1 - ny, x1 + nx, y1 + ny, x0 + nx, y0 + ny));
}

/** Corners with which the shoulder of a hub is drawn: 0.2 % of its area are lost. */
const ROUND = 60;

function disc([x, y]: readonly [number, number], diameter: number): Polygon {
  const ring = zeros(2 * ROUND);
  for (let i = 0; i < ROUND; i++) {
    const angle = (2 * Math.PI * i) / ROUND;
    ring[2 * i] = x + (diameter / 2) * Math.cos(angle);
    ring[2 * i + 1] = y + (diameter / 2) * Math.sin(angle);
  }
  return solid(ring);
}

const solid = (outline: Float64Array): Polygon => ({ outline, holes: [] });

/** What never stands off a plane by more than this, mm, summed over its corners, lies flat. */
const FLAT = 1e-3;

/** On which side of a body's plane a panel stands, looked at where it is farthest from the plane; 0 if nowhere. */
function sideOf({ panels }: Assembly, opening: Opening, body: number, panel: number): Side | 0 {
  const { outline } = panels[panel];
  let farthest = 0;
  for (const share of [0.25, 0.5, 0.75]) {
    const poses = opening.frame(Math.floor(share * (opening.count - 1)));
    const i = panel * POSE;
    const j = body * POSE;
    let sum = 0;
    for (let c = 0; c < outline.length; c += 2)
      for (let axis = 0; axis < POSE; axis += 4)
        sum +=
          poses[j + axis + 2] *
          (poses[i + axis] * outline[c] +
            poses[i + axis + 1] * outline[c + 1] +
            poses[i + axis + 3] -
            poses[j + axis + 3]);
    if (Math.abs(sum) > Math.abs(farthest)) farthest = sum;
  }
  return Math.abs(farthest) < FLAT ? 0 : (Math.sign(farthest) as Side);
}
