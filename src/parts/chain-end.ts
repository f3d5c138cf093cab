import { numbers } from '../geometry/numbers.js';
import type { Assembly, Line } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { cardSide } from './attach.js';

/**
 * Cuts a panel off along a line, so that the panel ends there: what lies beyond it, seen from the rest of the panel's
 * card, is taken away. (Sutherland and Hodgman's cut of a ring by one line; a link's ring is convex.)
 */
export function endAlong(assembly: Assembly, panel: number, line: Line, field: string): void {
  const ring = assembly.panels[panel].outline;
  const height = (x: number, y: number) =>
    (line.x1 - line.x0) * (y - line.y0) - (line.y1 - line.y0) * (x - line.x0);
  const side = cardSide(ring, line) || 1;
  const kept: number[] = [];
  for (let i = 0; i < ring.length; i += 2) {
    const j = (i + 2) % ring.length;
    const [hi, hj] = [side * height(ring[i], ring[i + 1]), side * height(ring[j], ring[j + 1])];
    if (hi >= 0) kept.push(ring[i], ring[i + 1]);
    if (hi > 0 !== hj > 0 && hi !== 0 && hj !== 0) {
      const t = hi / (hi - hj);
      kept.push(ring[i] + t * (ring[j] - ring[i]), ring[i + 1] + t * (ring[j + 1] - ring[i + 1]));
    }
  }
  if (kept.length < 6)
    throw new CannotBuild(`no card of '${assembly.panels[panel].name}' is left there`, field);
  assembly.panels[panel].outline = numbers(kept);
}
