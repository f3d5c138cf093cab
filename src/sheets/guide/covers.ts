import {
  edgesOf,
  inside,
  middle,
  moved,
  type Point,
  type Shape,
  shapeOf,
  undoing,
} from '../../geometry/plane.js';
import { widePlace } from '../../geometry/room.js';
import type { Assembly } from '../../motion/assembly.js';
import { POSE } from '../../motion/pose.js';
import type { Bond } from '../nets/bonds.js';
import type { Frames } from '../nets/fold-sense.js';
import type { Net } from '../nets/net.js';

/** Card nearer than this over glue leaves no room for a finger, mm. (Common practice, no source.) */
const FINGER = 20;
/** The book is held at least this far open while something is glued in, degrees. */
const HELD_OPEN = 80;

/**
 * For each place of glue, the nets whose card lies over it, however the book is held open: once they are fixed, no finger
 * and no bone folder reaches it. What is glued itself is left out: it is pressed through, or shut on.
 */
export function coversOf(
  assembly: Assembly,
  frames: Frames,
  nets: readonly Net[],
  bonds: readonly Bond[],
): ReadonlyMap<Bond, readonly Net[]> {
  const netOf = new Map<number, Net>();
  for (const net of nets) for (const { panel } of net.areas) if (panel >= 0) netOf.set(panel, net);
  const shapes = assembly.panels.map(shapeOf);
  const open = frames.poses.filter((_, i) => frames.pageAngles[i] >= HELD_OPEN);
  return new Map(
    bonds.map((bond) => {
      const { receiver, giver } = bond;
      const { panel, place } = receiver.net.areas[receiver.area];
      const spots = receiver.shapes.flatMap(samples).map((at) => moved(undoing(place), at));
      const face = receiver.face * place.flip;
      const under = (k: number) =>
        open.every((poses) => {
          const covered = spots.filter((at) => liesOver(poses, panel, at, face, k, shapes[k])).length;
          return 2 * covered > spots.length;
        });
      const over = new Set<Net>();
      // What lies flat on the piece that is glued folds back with it.
      const own = new Set(
        giver.net.areas.flatMap(({ panel: k }) => (k < 0 ? [] : [assembly.panels[k].body])),
      );
      own.delete(assembly.panels[panel].body);
      assembly.panels.forEach((_, k) => {
        const net = netOf.get(k);
        if (net === undefined || net === giver.net || net === receiver.net || over.has(net)) return;
        if (own.has(assembly.panels[k].body)) return;
        if (assembly.panels[k].body !== assembly.panels[panel].body && under(k)) over.add(net);
      });
      return [bond, [...over]] as const;
    }),
  );
}

/** A few points of a shape: its widest place, and half-way from there to its edges. */
function samples(shape: Shape): Point[] {
  const { at } = widePlace(shape);
  return [at, ...edgesOf(shape.outline).map((edge) => middle([at, middle(edge)]))];
}

/** Whether a panel lies over a point on the face of another, nearer than a finger is thick. */
function liesOver(
  poses: Float64Array,
  panel: number,
  [x, y]: Point,
  face: number,
  other: number,
  shape: Shape,
): boolean {
  const [i, j] = [panel * POSE, other * POSE];
  const rows = [0, 4, 8];
  const normal = rows.map((r) => face * poses[i + r + 2]);
  const from = rows.map((r) => poses[i + r] * x + poses[i + r + 1] * y + poses[i + r + 3] - poses[j + r + 3]);
  const inOther = (axis: number, v: readonly number[]) =>
    rows.reduce((sum, r, k) => sum + poses[j + r + axis] * v[k], 0);
  const steep = inOther(2, normal);
  if (Math.abs(steep) < 0.05) return false;
  const away = -inOther(2, from) / steep;
  if (away < 0.01 || away > FINGER) return false;
  const hit: Point = [
    inOther(0, from) + away * inOther(0, normal),
    inOther(1, from) + away * inOther(1, normal),
  ];
  return inside(shape.outline, hit) && !shape.holes.some((hole) => inside(hole, hit));
}
