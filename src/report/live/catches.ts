import { crossing, newCrossing } from '../../geometry/crossing.js';
import { type Assembly, asDrawn, LEFT_PAGE, RIGHT_PAGE } from '../../motion/assembly.js';
import { worldPoint } from '../../motion/pose.js';
import type { Scorecard } from '../../score/scorecard.js';
import type { Counts } from './viewer.js';

/** A catch as it is to be shown: who, how deep (mm), and where in the world. */
export interface Shown {
  readonly between: readonly [number, number];
  readonly depth: number;
  readonly at: readonly [number, number, number];
}

/** The deepest catch of the scorecard is shown this near to its page angle, degrees. */
const NEAR = 0.5;
const found = newCrossing();
const point = new Float64Array(3);

/**
 * The catches at one page angle, deepest first: every two panels whose crossing counts, by the kernel's own test; and the deepest of the scorecard, when it is here, as it may be a fold through itself.
 */
export function catchesAt(
  assembly: Pick<Assembly, 'panels'>,
  poses: Float64Array,
  pageAngle: number,
  counts: Counts,
  { clash }: Pick<Scorecard, 'clash'>,
): Shown[] {
  const { panels } = assembly;
  const shown: Shown[] = [];
  // Nothing catches before the first catch.
  if (clash.firstPageAngle === null || pageAngle > clash.firstPageAngle) return shown;
  for (let a = 0; a < panels.length; a++)
    for (let b = a + 1; b < panels.length; b++) {
      if (panels[a].body === panels[b].body || (a === LEFT_PAGE && b === RIGHT_PAGE)) continue;
      if (!crossing(panels[a], panels[b], poses, a, b, found) || !counts(a, b, found, pageAngle)) continue;
      shown.push({ between: [a, b], depth: found.depth, at: placed(poses, b, found.bx, found.by) });
    }
  const { between, points, deepest } = clash;
  if (
    between &&
    points &&
    deepest !== null &&
    Math.abs(pageAngle - (clash.pageAngle ?? Number.NaN)) <= NEAR
  ) {
    const [a, b] = between.map((name) => panels.findIndex((panel) => panel.name === name));
    if (
      a >= 0 &&
      b >= 0 &&
      !shown.some(({ between: [c, d] }) => c === Math.min(a, b) && d === Math.max(a, b))
    )
      shown.push({ between: [a, b], depth: deepest, at: placed(poses, b, ...asDrawn(panels[b], points[1])) });
  }
  return shown.sort((one, other) => other.depth - one.depth);
}

function placed(poses: Float64Array, panel: number, x: number, y: number): [number, number, number] {
  worldPoint(poses, panel, x, y, point);
  return [point[0], point[1], point[2]];
}
