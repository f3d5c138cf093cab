import type { Card } from '../../figure/card.js';
import type { Line } from '../../geometry/line.js';
import type { Assembly } from '../../motion/assembly.js';
import type { Opening } from '../../motion/opening.js';
import { POSE } from '../../motion/pose.js';

const RADIANS = Math.PI / 180;
/** Degrees of page angle between two looks at the creases: their torque changes slowly. */
const EVERY = 6;

/** Torque on the page, N mm; above 0 it opens the book. */
export interface PageTorque {
  /** Page angles, degrees, falling, and the torque there. */
  readonly pageAngles: number[];
  readonly torques: number[];
}

/** That of all creases: M = Σ k ℓ (ψ_rest − ψ) dψ/dφ over all that card was folded at (see `src/card/crease.ts`). */
export function creaseTorques(assembly: Assembly, opening: Opening, card: Card): PageTorque {
  const creases = assembly.joints.flatMap((joint) => {
    if (joint.kind !== 'crease') return [];
    const [a, b] = joint.between;
    if (assembly.panels[a].piece === 'page' && assembly.panels[b].piece === 'page') return [];
    const [first, second] = joint.lines;
    const { crease } = card.of(assembly.panels[b].piece);
    const long = Math.hypot(first.x1 - first.x0, first.y1 - first.y0);
    return [
      {
        a: a * POSE,
        b: b * POSE,
        from: away(first, assembly.panels[a].outline),
        to: away(second, assembly.panels[b].outline),
        stiffness: crease.stiffness * long,
        rest: crease.rest,
      },
    ];
  });
  const pageAngles: number[] = [];
  const torques: number[] = [];
  let before: number[] | null = null;
  let beforeAt = 0;
  for (let frame = 0; frame < opening.count; frame++) {
    const at = opening.pageAngles[frame];
    if (before !== null && beforeAt - at < EVERY - 1e-9 && frame + 1 < opening.count) continue;
    const q = opening.frame(frame);
    const now: number[] = creases.map(({ a, b, from, to }) => {
      const dot =
        (q[a] * from[0] + q[a + 1] * from[1]) * (q[b] * to[0] + q[b + 1] * to[1]) +
        (q[a + 4] * from[0] + q[a + 5] * from[1]) * (q[b + 4] * to[0] + q[b + 5] * to[1]) +
        (q[a + 8] * from[0] + q[a + 9] * from[1]) * (q[b + 8] * to[0] + q[b + 9] * to[1]);
      return Math.acos(Math.min(1, Math.max(-1, dot)));
    });
    if (before !== null) {
      let sum = 0;
      for (let k = 0; k < creases.length; k++) {
        const turn = (now[k] - before[k]) / ((at - beforeAt) * RADIANS);
        sum += creases[k].stiffness * (creases[k].rest - (now[k] + before[k]) / 2) * turn;
      }
      pageAngles.push((at + beforeAt) / 2);
      torques.push(sum);
    }
    before = now;
    beforeAt = at;
  }
  return { pageAngles, torques };
}

/** The torque at a page angle, between those known; beyond the first and the last (177° and 3°) it stays as it is there, so that it leaps nowhere. */
export function torqueAt({ pageAngles, torques }: PageTorque, pageAngle: number): number {
  const last = pageAngles.length - 1;
  if (last < 0) return 0;
  if (pageAngle >= pageAngles[0]) return torques[0];
  let k = 0;
  while (k < last && pageAngles[k + 1] > pageAngle) k++;
  if (k === last) return torques[last];
  const share = (pageAngles[k] - pageAngle) / (pageAngles[k] - pageAngles[k + 1]);
  return torques[k] + share * (torques[k + 1] - torques[k]);
}

/** The unit direction square to a crease, in its panel's plane, on the side where the card lies. */
function away({ x0, y0, x1, y1 }: Line, outline: Float64Array): readonly [number, number] {
  const long = Math.hypot(x1 - x0, y1 - y0) || 1;
  const [nx, ny] = [-(y1 - y0) / long, (x1 - x0) / long];
  let sum = 0;
  for (let v = 0; v < outline.length; v += 2) sum += (outline[v] - x0) * nx + (outline[v + 1] - y0) * ny;
  return sum >= 0 ? [nx, ny] : [-nx, -ny];
}
