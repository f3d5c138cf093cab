import { CannotBuild } from '../../motion/cannot-build.js';
import { takeStance } from '../../parts/attach.js';
import type { LineAt, Reading } from './forms.js';
import { lineOnPanel } from './lines.js';

/** How far a glue line may pass by the apex, mm. */
const BESIDE = 0.3;
/** Least angle of a glue line from the crease, degrees: that of a V-fold's glue. */
const LEAST = 0.5;

/** Where a glue line lies: the crease, and on it the apex (mm from its start) and the way that the angle is counted. */
export interface Apex {
  readonly crease: string;
  readonly at: number;
  readonly toward: 'end' | 'start';
}

/**
 * The angle in which a line runs from a crease, degrees, on the panel on one side of it.
 * @param side left or right of the crease; null for the one on which the line lies
 * @throws CannotBuild where it lies on the other side, runs along the crease, or does not go through the apex
 */
export function glueAngle(
  line: LineAt,
  apex: Apex,
  side: 0 | 1 | null,
  dims: Float64Array,
  field: string,
  reading: Reading,
): number {
  if (side !== null) return angleOn(line, apex, side, dims, field, reading);
  try {
    return angleOn(line, apex, 0, dims, field, reading);
  } catch (error) {
    if (!(error instanceof CannotBuild)) throw error;
    try {
      return angleOn(line, apex, 1, dims, field, reading);
    } catch {
      throw error;
    }
  }
}

function angleOn(
  line: LineAt,
  { crease, at, toward }: Apex,
  side: 0 | 1,
  dims: Float64Array,
  field: string,
  reading: Reading,
): number {
  const stance = takeStance(reading.scene.assembly.creaseNamed(crease, field), at, toward);
  const { panel, at: apex, along, inward } = stance.footings[side];
  const { x0, y0, x1, y1 } = lineOnPanel(line(dims, panel), panel, field, reading);
  const seen = (x: number, y: number): readonly [number, number] => {
    const [dx, dy] = [x - apex[0], y - apex[1]];
    return [dx * along[0] + dy * along[1], dx * inward[0] + dy * inward[1]];
  };
  // From the end nearer to the crease outwards.
  const [[a0, off0], [a1, off1]] = [seen(x0, y0), seen(x1, y1)].sort((p, q) => p[1] - q[1]);
  const word = ['left', 'right'][side];
  if (off1 <= 0)
    throw new CannotBuild(
      `the line lies on the other side of '${crease}': of the two, the ${word} one is asked for`,
      field,
    );
  const angle = (Math.atan2(off1 - off0, a1 - a0) * 180) / Math.PI;
  if (!(angle >= LEAST && angle <= 180 - LEAST))
    throw new CannotBuild(`the glue line runs along '${crease}'`, field);
  const meets = a0 - (off0 * (a1 - a0)) / (off1 - off0);
  if (Math.abs(meets) * Math.sin((angle * Math.PI) / 180) > BESIDE)
    throw new CannotBuild(
      `the glue line meets '${crease}' at ${(at + (toward === 'end' ? meets : -meets)).toFixed(2)} mm, where the apex must be, and the apex is at ${at.toFixed(2)} mm`,
      field,
    );
  return angle;
}
