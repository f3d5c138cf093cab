import type { Polygon } from '../geometry/polygon.js';
import { outsideOf } from '../geometry/ring-distance.js';
import type { SlotRoom } from '../limits/measured.js';
import { type Assembly, asDrawn } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';
import { POSE } from '../motion/pose.js';

type Place = Pick<SlotRoom, 'room' | 'crosses' | 'pageAngle' | 'at'>;

/**
 * For each slot, the least room of what passes through it. A slot is a requirement: wherever the part crosses the plane of
 * the panel with the slot, it has to cross inside the slot, and not beside it on the card or beyond the card's edge. If the
 * slot says between which page angles, it has to cross at all of them; if not, at one at least. Empty where the page does
 * not move.
 * @param within page angles between which it is looked at, degrees
 */
export function findSlotRooms(
  assembly: Assembly,
  opening: Opening,
  within: { readonly from: number; readonly to: number } = { from: 180, to: 0 },
): SlotRoom[] {
  const rooms: SlotRoom[] = [];
  for (const joint of assembly.joints) {
    if (joint.kind !== 'slot') continue;
    const [passing, panel] = joint.between;
    const hole = assembly.panels[panel].holes[joint.hole];
    const span = joint.span ?? [180, 0];
    const most = Math.min(Math.max(...span), Math.max(within.from, within.to));
    const low = Math.max(Math.min(...span), Math.min(within.from, within.to));
    let least: Place | null = null;
    let nearest: Place | null = null;
    const look = (pageAngle: number, poses: Float64Array) => {
      const { cuts, away } = sections(assembly.panels[passing], poses, passing, panel);
      for (const [{ at: from }, { at: to }] of cuts) {
        const sides = [from, to].map((end) => -outsideOf(hole, end));
        const [room, at] = sides[0] <= sides[1] ? [sides[0], from] : [sides[1], to];
        if (least === null || room < least.room) least = { room, crosses: true, pageAngle, at };
      }
      if (cuts.length > 0 || away === null) return;
      const by = { room: -away, crosses: false, pageAngle, at: null };
      if (joint.span === null) {
        if (nearest === null || by.room > nearest.room) nearest = by;
      } else if (least === null || by.room < least.room) least = by;
    };
    for (let frame = 0; frame < opening.count; frame++)
      if (opening.pageAngles[frame] <= most && opening.pageAngles[frame] >= low)
        look(opening.pageAngles[frame], opening.frame(frame));
    const names = {
      slot: joint.part,
      passing: assembly.panels[passing].name,
      panel: assembly.panels[panel].name,
    };
    const found = (least ?? nearest) as Place | null;
    if (found === null) continue;
    rooms.push({ ...names, ...found, at: found.at && asDrawn(assembly.panels[panel], found.at) });
  }
  return rooms;
}

type Point = readonly [number, number];

/** A place where the outline of a panel meets the plane of another: in that plane, and in its own. */
interface End {
  readonly at: Point;
  readonly own: Point;
}

/**
 * Where what passes through a slot crosses the plane of the panel with the slot, from where to where on the passing panel
 * (x0, y0, x1, y1 in its own plane), at every page angle of an opening.
 */
export function passingSections(
  { panels }: Assembly,
  opening: Opening,
  { between: [passing, panel] }: { readonly between: readonly [number, number] },
): [number, number, number, number][] {
  return Array.from({ length: opening.count }, (_, frame) =>
    sections(panels[passing], opening.frame(frame), passing, panel).cuts.map(
      ([{ own: from }, { own: to }]): [number, number, number, number] => [...from, ...to],
    ),
  ).flat();
}

/** Card nearer to a plane than this, mm, lies in it: as a foot on the one page lies in the plane of the other while both are open. */
const FLAT = 1e-4;

/**
 * Where the card of one panel, its holes taken as card, meets the plane of another: from where to where in that plane. And
 * how far it stays away from it, mm; null where the two planes are one.
 */
function sections(
  shape: Polygon,
  poses: Float64Array,
  k: number,
  plane: number,
): { readonly cuts: [End, End][]; readonly away: number | null } {
  const i = k * POSE;
  const j = plane * POSE;
  const ring = shape.outline;
  const ends: End[] = [];
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
  let [away, low, high] = [Infinity, Infinity, -Infinity];
  for (let v = 0; v < ring.length; v += 2) {
    const [x1, y1] = [ring[v], ring[v + 1]];
    const next = along(2, x1, y1);
    away = Math.min(away, Math.abs(next));
    low = Math.min(low, next);
    high = Math.max(high, next);
    if (height > 0 !== next > 0) {
      const t = height / (height - next);
      const [x, y] = [x0 + t * (x1 - x0), y0 + t * (y1 - y0)];
      ends.push({ at: [along(0, x, y), along(1, x, y)], own: [x, y] });
    }
    [x0, y0, height] = [x1, y1, next];
  }
  // What only touches the plane, from one side, goes nowhere through it.
  if (low > -FLAT || high < FLAT) return { cuts: [], away: high - low < FLAT ? null : away };
  // All ends lie on the line in which the two planes meet: square to what of panel k's normal lies in the other plane.
  const across = (axis: number) =>
    poses[j + axis] * poses[i + 2] + poses[j + 4 + axis] * poses[i + 6] + poses[j + 8 + axis] * poses[i + 10];
  const [dx, dy] = [-across(1), across(0)];
  ends.sort(({ at: p }, { at: q }) => (p[0] - q[0]) * dx + (p[1] - q[1]) * dy);
  return { away, cuts: Array.from({ length: ends.length >> 1 }, (_, n) => [ends[2 * n], ends[2 * n + 1]]) };
}
