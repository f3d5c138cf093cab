import type { Shape } from '../geometry/polygon.js';
import { outsideOf } from '../geometry/ring-distance.js';
import { type Assembly, POSE } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';

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

/** For each slot, the least room of what passes through it, over the whole opening. */
export function findSlotRooms(assembly: Assembly, opening: Opening): SlotRoom[] {
  const rooms: SlotRoom[] = [];
  for (const joint of assembly.joints) {
    if (joint.kind !== 'slot') continue;
    const [passing, panel] = joint.between;
    const hole = assembly.panels[panel].holes[joint.hole];
    let least: Pick<SlotRoom, 'room' | 'pageAngle' | 'at'> = { room: null, pageAngle: null, at: null };
    for (let frame = 0; frame < opening.count; frame++)
      for (const end of sectionEnds(assembly.panels[passing], opening.frame(frame), passing, panel)) {
        const room = -outsideOf(hole, end);
        if (least.room === null || room < least.room)
          least = { room, pageAngle: opening.pageAngles[frame], at: end };
      }
    rooms.push({ passing: assembly.panels[passing].name, panel: assembly.panels[panel].name, ...least });
  }
  return rooms;
}

/** Where the outline of one panel meets the plane of another, in that plane. */
function sectionEnds(shape: Shape, poses: Float64Array, k: number, plane: number): [number, number][] {
  const i = k * POSE;
  const j = plane * POSE;
  const ring = shape.outline;
  const ends: [number, number][] = [];
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
  return ends;
}
