import { foldState, newFoldState } from '../card/fold-spring.js';
import type { Card } from '../figure/card.js';
import type { Assembly } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';
import { POSE, worldPoint } from '../motion/pose.js';
import { placingIn } from '../score/clash/bodies.js';
import { angleBetween, type Sprung, sprungFolds } from '../score/force/springs.js';

/**
 * A panel that bows while the page turns, as the model of card has it: between parallel creases a cylinder, between
 * creases that meet a cone. It bows by so much at every half degree; how it moves does not change by it. The model
 * does not say to which side: it is drawn to the side that has more room, and no farther than to what bounds it, where
 * card folds into waves.
 */
export interface Bend {
  readonly panel: number;
  readonly vertex: boolean;
  /** From crease to crease: mm, or radians about the vertex. */
  readonly size: number;
  /** Of a cone, where it bows by as much as is told, mm from its vertex. */
  readonly radius: number;
  /** The sense of y in its plane (see `Panel.up`), and the side of its face to which it bows. */
  readonly up: 1 | -1;
  readonly side: 1 | -1;
  /** Where in its plane it bows most. */
  readonly at: readonly [number, number];
  /** The panel, and those glued flat on it, which bend along. */
  readonly along: readonly BentAlong[];
  /** mm, at every half degree of page angle from 180 down to 0; and as far as there is room to draw it. */
  readonly bows: Float64Array<ArrayBuffer>;
  readonly drawn: Float64Array<ArrayBuffer>;
}

/** Where a panel lies in the plane of the one that bows: x = a x' + b y' + c, and whether its face looks the same way. */
export interface BentAlong {
  readonly panel: number;
  readonly x: readonly [a: number, b: number, c: number];
  readonly y: readonly [a: number, b: number, c: number];
  readonly face: 1 | -1;
}

const STEP = 0.5;
const COUNT = 180 / STEP + 1;
/** Less than this is not seen, mm: half the thickness of card. */
const SEEN = 0.15;

/** The panels that bow at any page angle so that it is seen. */
export function bendsOf(assembly: Assembly, opening: Opening, card: Card): Bend[] {
  if (opening.count < 2) return [];
  const state = newFoldState();
  return sprungFolds(assembly, opening, card).flatMap((sprung): Bend[] => {
    const { fold, spring, angles } = sprung;
    const least = opening.pageAngles[opening.count - 1];
    const bows = Float64Array.from({ length: COUNT }, (_, i) => {
      const pageAngle = Math.max(least, 180 - i * STEP);
      return foldState(spring, angleBetween(opening, angles, pageAngle).theta, state).bow;
    });
    if (bows.reduce((most, bow) => Math.max(most, bow), 0) < SEEN) return [];
    const longer = fold.sides[0] >= fold.sides[1] ? 0 : 1;
    const panel = fold.panels[longer];
    const [size, { up }] = [fold.sides[longer], assembly.panels[panel]];
    const at: [number, number] = fold.vertex
      ? [fold.length * Math.cos(size / 2), up * fold.length * Math.sin(size / 2)]
      : [fold.length / 2, (up * size) / 2];
    const { side, rooms } = roomFor(sprung, panel, at, bows, opening);
    return [
      {
        panel,
        vertex: fold.vertex,
        size,
        radius: fold.length,
        up,
        at,
        side,
        along: alongOf(assembly, panel),
        bows,
        drawn: bows.map((bow, i) => Math.min(bow, rooms[i])),
      },
    ];
  });
}

/** How far it bows at a page angle, mm. @param of as the model has it, or as it is drawn */
export function bowAt(bend: Bend, pageAngle: number, of: 'bows' | 'drawn' = 'bows'): number {
  const bows = bend[of];
  const place = Math.min(COUNT - 1, Math.max(0, (180 - pageAngle) / STEP));
  const k = Math.min(COUNT - 2, Math.floor(place));
  return bows[k] + (place - k) * (bows[k + 1] - bows[k]);
}

/**
 * How high bowed card stands over its plane, for a bow of 1 mm, and by how much that rises along x and y. Sines: to 1 %
 * those of the elastica while it bows by less than a tenth of its width.
 * @param out height, rise along x, rise along y
 */
export function heightAt(
  { vertex, size, radius, up, side }: Bend,
  x: number,
  y: number,
  out: Float64Array,
): void {
  out.fill(0);
  if (!vertex) {
    const across = (up * y) / size;
    if (across <= 0 || across >= 1) return;
    out[0] = side * Math.sin(Math.PI * across);
    out[2] = (side * up * Math.PI * Math.cos(Math.PI * across)) / size;
    return;
  }
  const far = Math.hypot(x, y);
  const turned = Math.atan2(up * y, x) / size;
  if (far === 0 || turned <= 0 || turned >= 1) return;
  const [sine, cosine] = [Math.sin(Math.PI * turned), Math.cos(Math.PI * turned)];
  const [outwards, round] = [sine / radius, (up * Math.PI * cosine) / (size * radius)];
  out[0] = (side * far * sine) / radius;
  out[1] = (side * (outwards * x - round * y)) / far;
  out[2] = (side * (outwards * y + round * x)) / far;
}

/** So many flat strips are drawn in place of the curve. */
const STRIPS = 12;

/** Lines a x + b y = c of a panel along which it must be cut into strips to be drawn bent: the creases among them. */
export function bendLines(
  { vertex, size, up }: Bend,
  { x, y }: BentAlong,
): (readonly [a: number, b: number, c: number])[] {
  return Array.from({ length: STRIPS + 1 }, (_, k) => {
    const share = (size * k) / STRIPS;
    const [a, b, c] = vertex ? [-up * Math.sin(share), Math.cos(share), 0] : [0, 1, up * share];
    return [a * x[0] + b * y[0], a * x[1] + b * y[1], c - a * x[2] - b * y[2]];
  });
}

/** How far a point of a panel is from the plane of another, mm, and whether both faces look the same way (1) or not. */
function heightOver(q: Float64Array, panel: number, [x, y]: readonly [number, number], over: number) {
  const at = [0, 0, 0];
  worldPoint(q, panel, x, y, at);
  const [i, j] = [panel * POSE, over * POSE];
  const sum = (of: (row: number, axis: number) => number) => of(0, 0) + of(4, 1) + of(8, 2);
  return {
    height: sum((row, axis) => q[j + row + 2] * (at[axis] - q[j + row + 3])),
    facing: sum((row) => q[j + row + 2] * q[i + row + 2]),
  };
}

/**
 * To which side it has more room between the panels on which it stands, when it bows most, and how much at every half
 * degree: between frames a straight line.
 */
function roomFor(
  { fold }: Sprung,
  panel: number,
  at: readonly [number, number],
  bows: Float64Array,
  opening: Opening,
): { side: 1 | -1; rooms: Float64Array } {
  const { count, pageAngles } = opening;
  const widest = 180 - STEP * bows.indexOf(Math.max(...bows));
  let frame = 0;
  while (frame + 1 < count && pageAngles[frame] > widest) frame++;
  const [one, other] = fold.on.map((parent) => ({
    parent,
    ...heightOver(opening.frame(frame), panel, at, parent),
  }));
  const { parent, height, facing } = Math.abs(one.height) >= Math.abs(other.height) ? one : other;
  const atFrames = Array.from({ length: count }, (_, k) =>
    Math.abs(heightOver(opening.frame(k), panel, at, parent).height),
  );
  let k = 0;
  const rooms = Float64Array.from(bows, (_, i) => {
    const pageAngle = 180 - i * STEP;
    while (k + 2 < count && pageAngles[k + 1] > pageAngle) k++;
    const share = Math.max(0, (pageAngle - pageAngles[k + 1]) / (pageAngles[k] - pageAngles[k + 1]));
    return atFrames[k + 1] + share * (atFrames[k] - atFrames[k + 1]);
  });
  return { side: height * facing > 0 ? -1 : 1, rooms };
}

/** All that moves with a panel as one body, and where it lies on it. */
function alongOf({ panels, open }: Assembly, panel: number): BentAlong[] {
  return panels.flatMap(({ body }, k): BentAlong[] => {
    if (body !== panels[panel].body) return [];
    const { xx, xy, x0, yx, yy, y0 } = placingIn(open, k, panel);
    const [i, j] = [panel * POSE, k * POSE];
    const facing = open[i + 2] * open[j + 2] + open[i + 6] * open[j + 6] + open[i + 10] * open[j + 10];
    return [{ panel: k, x: [xx, xy, x0], y: [yx, yy, y0], face: facing >= 0 ? 1 : -1 }];
  });
}
