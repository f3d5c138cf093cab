import type { Assembly, Joint } from '../../motion/assembly.js';
import { POSE, worldPoint } from '../../motion/pose.js';
import type { Frames } from '../nets/fold-sense.js';
import type { Hub } from '../nets/hub.js';

/** Ends of a chain that lie apart by less than this tell nothing of sides, mm. */
const APART = 1;

/** Where a chain of limbs ends: the panel that holds it, which is no limb, and the joint there, on a limb of the chain. */
interface End {
  readonly holder: number;
  readonly limb: number;
  readonly at: readonly [number, number];
}

/**
 * On which side of the first part of a hub the second lies: that to which its chain of limbs leads. Limbs lie between planes that stay parallel,
 * such as a plate over a page; so what is led to the page lies below what hangs on the plate, hub by hub. The other way
 * round a limb would have to go through the plate.
 * @returns 1 on the front of the first panel (where its z axis points), −1 on its back, 0 where all lies in one plane
 */
export function sideOfHub(
  assembly: Assembly,
  frames: Frames,
  hub: Pick<Hub, 'panels' | 'points'>,
): 1 | -1 | 0 {
  const [first, second] = hub.panels;
  const ends = [
    endsOf(assembly, first, second, hub.points[0]),
    endsOf(assembly, second, first, hub.points[1]),
  ] as const;
  const [{ holder }] = [...ends[0], ...ends[1]];
  const [middle, p] = [new Float64Array(3), new Float64Array(3)];
  const i = holder * POSE;
  let most = 0;
  for (const poses of frames.poses) {
    worldPoint(poses, first, ...hub.points[0], middle);
    const [one, other] = ends.map((all) => {
      const heights = all.map(({ limb, at }) => {
        worldPoint(poses, limb, ...at, p);
        return [2, 6, 10].reduce((sum, z, axis) => sum + poses[i + z] * (p[axis] - middle[axis]), 0);
      });
      return heights.reduce((far, height) => (Math.abs(height) > Math.abs(far) ? height : far), 0);
    });
    if (Math.abs(other - one) > Math.abs(most)) most = other - one;
  }
  if (Math.abs(most) < APART) return 0;
  const j = first * POSE;
  const alike = [2, 6, 10].reduce((sum, z) => sum + assembly.open[i + z] * assembly.open[j + z], 0);
  return most * alike > 0 ? 1 : -1;
}

/** Where the chain of one part of a hub ends, the other part left out; a part that is no limb is its own end. */
function endsOf(assembly: Assembly, part: number, other: number, at: readonly [number, number]): End[] {
  if (!assembly.chains.holds(part)) return [{ holder: part, limb: part, at }];
  const ends: End[] = [];
  const limbs = new Set([part]);
  for (const limb of limbs)
    for (const joint of assembly.joints) {
      const [holder, x, y] = held(joint, limb) ?? [other, 0, 0];
      if (holder === other) continue;
      if (assembly.chains.holds(holder)) limbs.add(holder);
      else ends.push({ holder, limb, at: [x, y] });
    }
  return ends.length > 0 ? ends : [{ holder: part, limb: part, at }];
}

/** What a joint holds a limb to, and where on the limb, mm; null where it is no joint of it, or one of card on card. */
function held(joint: Joint, limb: number): [number, number, number] | null {
  if (joint.kind === 'slide' && joint.neck?.link === limb) {
    const { x0, y0, x1, y1 } = joint.neck.lines[0];
    return [joint.between[1], (x0 + x1) / 2, (y0 + y1) / 2];
  }
  const own = joint.between.indexOf(limb);
  if (own < 0) return null;
  const other = joint.between[1 - own];
  if (joint.kind === 'pivot') return [other, ...joint.points[own]];
  if (joint.kind === 'slide') return own === 0 ? [other, ...joint.point] : null;
  if (joint.kind !== 'crease') return null;
  const { x0, y0, x1, y1 } = joint.lines[own];
  return [other, (x0 + x1) / 2, (y0 + y1) / 2];
}
