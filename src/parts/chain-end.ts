import { cutToHeight } from '../geometry/convex-cut.js';
import { faultOf, TOUCHING } from '../geometry/faults.js';
import type { Line } from '../geometry/line.js';
import { numbers } from '../geometry/numbers.js';
import type { Assembly } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { cardSide, unit } from './attach.js';

/**
 * Cuts a panel off along a line, so that the panel ends there: what lies beyond it is taken away, holes included. The side with its
 * first hub stays, however much card lies on the other; without a hub, the side with most of its card.
 *
 * A concave outline that falls into several pieces stays joined by edges that lie on one another along the line; those, and
 * holes that the line would cut open, are refused.
 * @throws CannotBuild when what is left is no one piece of card
 */
export function endAlong(assembly: Assembly, index: number, line: Line, field: string): void {
  const panel = assembly.panels[index];
  const [ex, ey] = unit(line);
  const side = sideOfHub(assembly, index, line) || cardSide(panel.outline, line) || 1;
  /** mm above the line, on the side that stays; a corner all but on the line is on it. */
  const height = (x: number, y: number): number => {
    const h = side * (ex * (y - line.y0) - ey * (x - line.x0));
    return Math.abs(h) < TOUCHING ? 0 : h;
  };
  const kept = cutToHeight(panel.outline, height);
  if (kept.length < 6) throw new CannotBuild(`no card of '${panel.name}' is left there`, field);
  // A hole on the line, or across it, meets the new edge: `faultOf` says so.
  const holes = panel.holes.filter((hole) => hole.some((x, i) => i % 2 === 0 && height(x, hole[i + 1]) > 0));
  const outline = numbers(kept);
  if (faultOf({ outline, holes }) !== undefined)
    throw new CannotBuild(
      `'${panel.name}' does not end there in one straight cut: it falls apart, or a hole is cut open`,
      field,
    );
  panel.outline = outline;
  panel.holes = holes;
}

/** On which side of a line the first hub of a panel is; 0 where there is none, or it lies on the line. */
function sideOfHub({ joints }: Assembly, index: number, line: Line): 1 | -1 | 0 {
  const hub = joints.find(({ kind, between }) => kind === 'pivot' && between.includes(index));
  if (hub?.kind !== 'pivot') return 0;
  const [x, y] = hub.points[hub.between.indexOf(index)];
  const [ex, ey] = unit(line);
  const height = ex * (y - line.y0) - ey * (x - line.x0);
  return Math.abs(height) < TOUCHING ? 0 : height > 0 ? 1 : -1;
}
