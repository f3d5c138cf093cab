import { lengthWithin } from '../geometry/line-in-ring.js';
import type { Shape } from '../geometry/polygon.js';
import { outsideOf } from '../geometry/ring-distance.js';
import type { Assembly } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';
import { POSE } from '../motion/pose.js';

/** The least room that a part has in the slot it passes through. */
export interface SlotRoom {
  readonly passing: string;
  readonly panel: string;
  /** mm from the part's section to the slot's edge; below 0 it has run past it; null when it never passes through. */
  readonly room: number | null;
  readonly pageAngle: number | null;
  /** Where, in the plane of the panel with the slot. */
  readonly at: readonly [number, number] | null;
}

/**
 * For each slot, the least room of what passes through it, over the whole opening. Only where a section of the part lies
 * at least partly on the panel with the slot: beyond the panel's edge, it passes by and not through.
 */
export function findSlotRooms(assembly: Assembly, opening: Opening): SlotRoom[] {
  const rooms: SlotRoom[] = [];
  for (const joint of assembly.joints) {
    if (joint.kind !== 'slot') continue;
    const [passing, panel] = joint.between;
    const { outline, holes } = assembly.panels[panel];
    let least: Pick<SlotRoom, 'room' | 'pageAngle' | 'at'> = { room: null, pageAngle: null, at: null };
    for (let frame = 0; frame < opening.count; frame++)
      for (const [from, to] of sections(assembly.panels[passing], opening.frame(frame), passing, panel)) {
        const sides = [from, to].map((end) => -outsideOf(holes[joint.hole], end));
        const [room, at] = sides[0] <= sides[1] ? [sides[0], from] : [sides[1], to];
        if (least.room !== null && room >= least.room) continue;
        // Asked last, of few: it takes longest.
        if (!(lengthWithin({ x0: from[0], y0: from[1], x1: to[0], y1: to[1] }, outline) > 0)) continue;
        least = { room, pageAngle: opening.pageAngles[frame], at };
      }
    rooms.push({ passing: assembly.panels[passing].name, panel: assembly.panels[panel].name, ...least });
  }
  return rooms;
}

type Point = [number, number];

/** Sine of the angle between two planes below which they are parallel, but for round-off. */
const PARALLEL = 1e-6;

/** Where the card of one panel, its holes taken as card, meets the plane of another: from where to where in that plane. */
function sections(shape: Shape, poses: Float64Array, k: number, plane: number): [Point, Point][] {
  const i = k * POSE;
  const j = plane * POSE;
  const ring = shape.outline;
  const ends: Point[] = [];
  /** A point of panel k along one axis of the other panel's frame: 0 and 1 in its plane, 2 its height over it. */
  const along = (axis: number, x: number, y: number): number => {
    let sum = 0;
    for (let r = 0; r < POSE; r += 4)
      sum +=
        poses[j + r + axis] * (poses[i + r] * x + poses[i + r + 1] * y + poses[i + r + 3] - poses[j + r + 3]);
    return sum;
  };
  let [x0, y0] = [ring[ring.length - 2], ring[ring.length - 1]];
  let height = along(2, x0, y0);
  for (let v = 0; v < ring.length; v += 2) {
    const [x1, y1] = [ring[v], ring[v + 1]];
    const next = along(2, x1, y1);
    if (height > 0 !== next > 0) {
      const t = height / (height - next);
      const [x, y] = [x0 + t * (x1 - x0), y0 + t * (y1 - y0)];
      ends.push([along(0, x, y), along(1, x, y)]);
    }
    [x0, y0, height] = [x1, y1, next];
  }
  // All ends lie on the line in which the two planes meet: square to what of panel k's normal lies in the other plane.
  const across = (axis: number) =>
    poses[j + axis] * poses[i + 2] + poses[j + 4 + axis] * poses[i + 6] + poses[j + 8 + axis] * poses[i + 10];
  const [dx, dy] = [-across(1), across(0)];
  // Shut, both may lie in one plane: then there is no such line.
  if (Math.hypot(dx, dy) < PARALLEL) return [];
  ends.sort((p, q) => (p[0] - q[0]) * dx + (p[1] - q[1]) * dy);
  return Array.from({ length: ends.length >> 1 }, (_, n) => [ends[2 * n], ends[2 * n + 1]]);
}
