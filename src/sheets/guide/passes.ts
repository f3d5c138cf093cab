import { alongAndLeft, moved, type Point, ringOf, type Segment } from '../../geometry/plane.js';
import { widePlace } from '../../geometry/room.js';
import type { Assembly } from '../../motion/assembly.js';
import { POSE } from '../../motion/pose.js';
import type { Bond } from '../nets/bonds.js';
import type { Frames } from '../nets/fold-sense.js';
import type { Hub } from '../nets/hub.js';
import type { Net } from '../nets/net.js';

/** A part that goes through a slot of another. */
export interface Pass {
  readonly limb: Net;
  readonly holder: Net;
  /** The panel with the slot. */
  readonly through: number;
  /** What fixes the limb on the side that must be free while it is passed through. */
  readonly looseEnd: ReadonlySet<Bond | Hub>;
}

/**
 * Every pass through a slot. Where the limb crosses the slot, its card has two sides; the one that is held by less, of
 * equals the one that is glued later, is left loose until it has been passed through.
 */
export function passesOf(
  assembly: Assembly,
  frames: Frames,
  netOf: (panel: number) => Net,
  bonds: readonly Bond[],
  hubs: readonly Hub[],
): Pass[] {
  const all: (Bond | Hub)[] = [...bonds, ...hubs];
  return assembly.joints.flatMap((joint): Pass[] => {
    if (joint.kind !== 'slot') return [];
    const [passing, through] = joint.between;
    const [limb, holder] = [netOf(passing), netOf(through)];
    const area = limb.areas.findIndex(({ panel }) => panel === passing);
    const { place } = limb.areas[area];
    const hole = ringOf(assembly.panels[through].holes[joint.hole]);
    const own = crossing(frames, passing, through, hole);
    if (own === null) return [{ limb, holder, through, looseEnd: new Set() }];
    const line: Segment = [moved(place, own[0]), moved(place, own[1])];
    const sideOf = (p: Point): 0 | 1 => (alongAndLeft(line, p)[1] >= 0 ? 0 : 1);
    const sides = sidesOfAreas(limb, area, sideOf);
    const ends: [Set<Bond | Hub>, Set<Bond | Hub>] = [new Set(), new Set()];
    const add = (what: Bond | Hub, at: number, p: Point) => {
      ends[sides[at] ?? sideOf(p)].add(what);
    };
    for (const bond of bonds) {
      if (bond.giver.net === bond.receiver.net) continue;
      for (const spot of [bond.giver, bond.receiver])
        if (spot.net === limb) add(bond, spot.area, widePlace(spot.shapes[0]).at);
    }
    for (const hub of hubs)
      hub.panels.forEach((panel, i) => {
        const at = limb.areas.findIndex((own) => own.panel === panel);
        if (at >= 0) add(hub, at, moved(limb.areas[at].place, hub.points[i]));
      });
    const last = (end: Set<Bond | Hub>) => Math.max(-1, ...[...end].map((what) => all.indexOf(what)));
    const [first, second] = ends;
    const looser = first.size - second.size || last(second) - last(first);
    return [{ limb, holder, through, looseEnd: looser < 0 ? first : second }];
  });
}

/**
 * On which side of a line through one of its areas each area of a net lies: as far as creases lead from there. Null for
 * those that a crease leads to which crosses the line itself: the line goes on through them.
 */
function sidesOfAreas(net: Net, cut: number, sideOf: (p: Point) => 0 | 1): (0 | 1 | null)[] {
  const sides: (0 | 1 | null)[] = net.areas.map(() => null);
  const seen = new Set([cut]);
  const queue = [cut];
  for (const at of queue)
    for (const { between, line } of net.folds) {
      const next = between[0] === at ? between[1] : between[1] === at ? between[0] : -1;
      if (next < 0 || seen.has(next)) continue;
      const [from, to] = line.map(sideOf);
      seen.add(next);
      queue.push(next);
      sides[next] = sides[at] ?? (from === to ? from : null);
    }
  return sides;
}

/** Where a panel crosses a slot of another, in its own frame, at the page angle at which the two are most apart. */
function crossing(
  { poses }: Frames,
  passing: number,
  through: number,
  hole: readonly Point[],
): Segment | null {
  const rows = [0, 4, 8];
  const across = (frame: Float64Array) => {
    const dot = rows.reduce(
      (sum, r) => sum + frame[passing * POSE + r + 2] * frame[through * POSE + r + 2],
      0,
    );
    return 1 - dot * dot;
  };
  const frame = poses.reduce((a, b) => (across(b) > across(a) ? b : a));
  if (across(frame) < 1e-4) return null;
  const i = passing * POSE;
  const j = through * POSE;
  // The slot's middle, and the way of the common line of the two planes, in the frame of what passes.
  const sum = hole.reduce(([x, y], p): Point => [x + p[0] / hole.length, y + p[1] / hole.length], [0, 0]);
  const world = rows.map((r) => frame[j + r] * sum[0] + frame[j + r + 1] * sum[1] + frame[j + r + 3]);
  const own = (axis: number, v: readonly number[]) =>
    rows.reduce((s, r, k) => s + frame[i + r + axis] * v[k], 0);
  const from = world.map((v, k) => v - frame[i + rows[k] + 3]);
  const normal = rows.map((r) => frame[j + r + 2]);
  const [nx, ny] = [own(0, normal), own(1, normal)];
  const long = Math.hypot(nx, ny);
  const at: Point = [own(0, from), own(1, from)];
  return [at, [at[0] - ny / long, at[1] + nx / long]];
}
