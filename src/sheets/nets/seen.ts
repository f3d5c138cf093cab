import { cardIn, type Shape } from '../../geometry/plane.js';
import type { Assembly } from '../../motion/assembly.js';
import { POSE } from '../../motion/pose.js';
import type { Frames } from './fold-sense.js';

/** Page angles at which a spread is looked at, degrees. */
const READ_FROM = 90;
/** The reader looks down at it by this, degrees. (Common practice, no source.) */
const DOWN = 40;

/**
 * Of each panel, how much of its own face a reader at the foot of the open spread sees, less how much of its back, mm²:
 * card times the cosine of the way it looks, taken over the page angles at which one reads. Twins on either side of the
 * gutter come out alike.
 */
function seenFromFoot(assembly: Assembly, cards: readonly Shape[], frames: Frames): number[] {
  const down = (DOWN * Math.PI) / 180;
  const shown = frames.poses.filter((_, i) => frames.pageAngles[i] >= READ_FROM);
  const angles = frames.pageAngles.filter((angle) => angle >= READ_FROM);
  return assembly.panels.map(({ role }, k) => {
    if (role === 'tab') return 0;
    let sum = 0;
    shown.forEach((poses, i) => {
      // The book lies so that both leaves rise alike.
      const lean = ((180 - angles[i]) * Math.PI) / 360;
      const [x, y, z] = [2, 6, 10].map((axis) => poses[k * POSE + axis]);
      const up = z * Math.cos(lean) - x * Math.sin(lean);
      sum += up * Math.sin(down) - y * Math.cos(down);
    });
    return (cardIn(cards[k]) * sum) / Math.max(1, shown.length);
  });
}

/** Of each panel, how much it counts that its own face is printed: what a reader sees, or the other where asked. */
export function printedFaces(
  assembly: Assembly,
  cards: readonly Shape[],
  frames: Frames,
  faceOf: (piece: string) => 'front' | 'back',
): number[] {
  return seenFromFoot(assembly, cards, frames).map((seen, k) =>
    faceOf(assembly.panels[k].piece) === 'back' ? -seen : seen,
  );
}
