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
  const inPlane = (x: number, y: number) => {
    const d = [0, 4, 8].map(
      (r) => poses[i + r] * x + poses[i + r + 1] * y + poses[i + r + 3] - poses[j + r + 3],
    );
    return [0, 1, 2].map((c) => poses[j + c] * d[0] + poses[j + 4 + c] * d[1] + poses[j + 8 + c] * d[2]);
  };
  for (let v = 0; v < ring.length; v += 2) {
    const w = (v + 2) % ring.length;
    const p = inPlane(ring[v], ring[v + 1]);
    const q = inPlane(ring[w], ring[w + 1]);
    if (p[2] > 0 === q[2] > 0) continue;
    const t = p[2] / (p[2] - q[2]);
    ends.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])]);
  }
  return ends;
}
