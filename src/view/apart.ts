import { type Assembly, LEFT_PAGE, RIGHT_PAGE } from '../motion/assembly.js';
import { POSE, worldPoint } from '../motion/pose.js';

/** How far pieces move when the figure is pulled apart wholly, as shares of the page's width: out for all, up for each. */
const OUT = 0.2;
const UP = 0.17;

/**
 * Shifts that pull a figure apart by piece: each piece away from the middle of the gutter, and out of the open page, the
 * later it was added the farther, so that what stands on a piece clears it. The pages stay.
 * @param share 0, as built, to 1, wholly apart
 * @returns x, y, z in mm for each panel
 */
export function pulledApart(
  assembly: Pick<Assembly, 'panels' | 'page'>,
  poses: Float64Array,
  share: number,
): Float64Array {
  const { panels, page } = assembly;
  const shifts = new Float64Array(3 * panels.length);
  if (share === 0) return shifts;
  const pieces = [...new Set(panels.map(({ piece }) => piece))].filter(
    (piece) => piece !== panels[LEFT_PAGE].piece,
  );
  const half = pageAngleOf(poses) / 2;
  const middle = new Float64Array(3);
  pieces.forEach((piece, order) => {
    const members = panels.flatMap((panel, k) => (panel.piece === piece ? [k] : []));
    centre(assembly, poses, members, middle);
    middle[1] -= page.height / 2;
    const away = Math.hypot(middle[0], middle[1]) || 1;
    const out = (share * OUT * page.width) / away;
    const up = share * UP * page.width * (order + 1);
    const shift = [out * middle[0] - up * Math.cos(half), out * middle[1], up * Math.sin(half)];
    for (const k of members) shifts.set(shift, 3 * k);
  });
  return shifts;
}

/** Radians; the right page's x axis points to (−cos, 0, sin) of it. */
function pageAngleOf(poses: Float64Array): number {
  return Math.atan2(poses[RIGHT_PAGE * POSE + 8], -poses[RIGHT_PAGE * POSE]);
}

/** The mean of all corners of some panels, where they are. */
function centre(
  assembly: Pick<Assembly, 'panels' | 'page'>,
  poses: Float64Array,
  members: readonly number[],
  out: Float64Array,
): void {
  const point = new Float64Array(3);
  out.fill(0);
  let corners = 0;
  for (const k of members) {
    const { outline } = assembly.panels[k];
    for (let i = 0; i < outline.length; i += 2) {
      worldPoint(poses, k, outline[i], outline[i + 1], point);
      for (let axis = 0; axis < 3; axis++) out[axis] += point[axis];
      corners++;
    }
  }
  for (let axis = 0; axis < 3; axis++) out[axis] /= corners;
}
