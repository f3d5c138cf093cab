import {
  type FoldSpring,
  onFold,
  parallelSpring,
  parentsAngle,
  vertexSpring,
} from '../../card/fold-spring.js';
import type { Stiffness } from '../../card/stock.js';
import type { Card } from '../../figure/card.js';
import type { Assembly } from '../../motion/assembly.js';
import type { CardFold } from '../../motion/card-fold.js';
import type { Opening } from '../../motion/opening.js';
import { POSE } from '../../motion/pose.js';
import { withGlued } from './doubled-panels.js';

const RADIANS = Math.PI / 180;

/** A fold that may need force, and the angle between its parents at every frame, radians. */
export interface Sprung {
  readonly fold: CardFold;
  readonly spring: FoldSpring;
  readonly angles: Float64Array;
}

/** Off by less than this nothing needs force: round-off of arithmetic in a figure file, mm or radians. */
const EXACT = 1e-9;

/** The folds of an assembly that are off at all: most are exact, and cost nothing. */
export function sprungFolds(assembly: Assembly, opening: Opening, card: Card): Sprung[] {
  const sprung: Sprung[] = [];
  for (const fold of assembly.folds) {
    const bare = springOf(assembly, fold, card, false);
    if (Math.abs(bare.excess) < EXACT && bare.reach >= farthest(fold) - EXACT) continue;
    const spring = springOf(assembly, fold, card);
    const angles = anglesBetween(fold, spring, opening);
    const parent = assembly.folds.find(({ panels }) => panels.some((panel) => fold.on.includes(panel)));
    sprung.push({
      fold,
      angles,
      spring: parent === undefined ? spring : softened(assembly, spring, angles, parent, opening, card),
    });
  }
  return sprung;
}

/** How far apart the feet come at most. */
const farthest = ({ feet: [a, b], vertex }: CardFold): number =>
  vertex ? Math.min(a + b, 2 * Math.PI - a - b) : a + b;

/** @param glued whether what is glued on its panels counts */
function springOf(assembly: Assembly, fold: CardFold, card: Card, glued = true): FoldSpring {
  const { thickness, grain, stiffness } = card.of(fold.piece);
  // A panel bends round a line along its creases, across which the grain lies that runs along them.
  const own: Stiffness = grain === 'any' ? stiffness.any : stiffness[grain === 'along' ? 'across' : 'along'];
  const bent = glued ? withGlued(assembly, fold, card, own) : own;
  const pile = fold.on.reduce((sum, panel) => sum + Math.min(thickness, assembly.panels[panel].thickness), 0);
  return fold.vertex
    ? vertexSpring(fold.feet, fold.sides, fold.length, fold.inner, fold.way, bent, thickness, pile)
    : parallelSpring(fold.feet, fold.sides, fold.length, fold.way, bent, thickness, pile);
}

/** With the panels of the fold on which it stands, which bow, too. */
function softened(
  assembly: Assembly,
  spring: FoldSpring,
  angles: Float64Array,
  parent: CardFold,
  opening: Opening,
  card: Card,
): FoldSpring {
  const under = springOf(assembly, parent, card);
  const theirs = anglesBetween(parent, under, opening);
  // Near shut both angles are small and grow alike.
  let frame = opening.count - 1;
  while (frame > 0 && !(angles[frame] > 0.05 && theirs[frame] > 0.05)) frame--;
  return angles[frame] > 0 ? onFold(spring, under, theirs[frame] / angles[frame]) : spring;
}

/** The angle between the parents at every frame, from how far apart the feet are. */
function anglesBetween(fold: CardFold, spring: FoldSpring, opening: Opening): Float64Array {
  const { on, marks, along, vertex } = fold;
  const angles = new Float64Array(opening.count);
  const [i, j] = [on[0] * POSE, on[1] * POSE];
  const [[ax, ay], [bx, by]] = marks;
  for (let frame = 0; frame < opening.count; frame++) {
    const q = opening.frame(frame);
    // Between the feet; of directions the difference, without the origins.
    const o = vertex ? 0 : 1;
    const x = q[j] * bx + q[j + 1] * by + o * q[j + 3] - q[i] * ax - q[i + 1] * ay - o * q[i + 3];
    const y = q[j + 4] * bx + q[j + 5] * by + o * q[j + 7] - q[i + 4] * ax - q[i + 5] * ay - o * q[i + 7];
    const z = q[j + 8] * bx + q[j + 9] * by + o * q[j + 11] - q[i + 8] * ax - q[i + 9] * ay - o * q[i + 11];
    let square = x * x + y * y + z * z;
    if (!vertex) {
      const ex = q[i] * along[0] + q[i + 1] * along[1];
      const ey = q[i + 4] * along[0] + q[i + 5] * along[1];
      const ez = q[i + 8] * along[0] + q[i + 9] * along[1];
      square -= (x * ex + y * ey + z * ez) ** 2;
    }
    angles[frame] = parentsAngle(spring, square);
  }
  return angles;
}

/** The angle between a fold's parents at any page angle, and how much it turns for each degree of it. */
export function angleBetween(opening: Opening, angles: Float64Array, pageAngle: number) {
  const { pageAngles, count } = opening;
  if (count < 2) return { theta: angles[0], turn: 1 };
  const step = pageAngles[0] - pageAngles[1];
  const frame = Math.min(count - 2, Math.max(0, Math.floor((pageAngles[0] - pageAngle) / step + 1e-9)));
  const share = (pageAngles[frame] - pageAngle) / (pageAngles[frame] - pageAngles[frame + 1]);
  const slope = (k: number) => (angles[k] - angles[k + 1]) / ((pageAngles[k] - pageAngles[k + 1]) * RADIANS);
  const here = slope(frame);
  // In the middle of a step its own slope, at a frame the mean of both: no leap from one to the next.
  const other = share < 0.5 ? slope(Math.max(0, frame - 1)) : slope(Math.min(count - 2, frame + 1));
  const near = Math.abs(share - 0.5);
  return {
    theta: angles[frame] + share * (angles[frame + 1] - angles[frame]),
    turn: (1 - near) * here + near * other,
  };
}
