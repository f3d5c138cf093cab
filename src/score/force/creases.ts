import type { Card } from '../../figure/card.js';
import type { Line } from '../../geometry/line.js';
import { holds, type Polygon } from '../../geometry/polygon.js';
import type { Assembly } from '../../motion/assembly.js';
import type { Opening } from '../../motion/opening.js';
import { POSE } from '../../motion/pose.js';
import { cardSide, lengthOf, unit } from '../../parts/attach.js';

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
    return [
      {
        a: a * POSE,
        b: b * POSE,
        from: away(first, assembly.panels[a]),
        to: away(second, assembly.panels[b]),
        stiffness: crease.stiffness * lengthOf(first),
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
function away(line: Line, panel: Polygon): readonly [number, number] {
  const [ex, ey] = unit(line);
  const side = sideBeside(line, panel) || cardSide(panel.outline, line) || 1;
  return [-side * ey, side * ex];
}

/** How far off a crease it is looked at which side has card, mm: less than any hem. */
const BESIDE = 0.5;

/**
 * The side of a crease on which there is card beside it, 1 for its left; 0 where that is so on both, as of one in the midst of a
 * panel. How much card lies farther off does not matter: beside the diagonal of a counter-fold that may be on either side.
 */
function sideBeside(line: Line, panel: Polygon): 1 | -1 | 0 {
  const [ex, ey] = unit(line);
  let more = 0;
  for (const share of [0.1, 0.3, 0.5, 0.7, 0.9]) {
    const [x, y] = [line.x0 + share * (line.x1 - line.x0), line.y0 + share * (line.y1 - line.y0)];
    for (const side of [1, -1])
      if (holds(panel, x - side * BESIDE * ey, y + side * BESIDE * ex)) more += side;
  }
  return Math.sign(more) as 1 | -1 | 0;
}
