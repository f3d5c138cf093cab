import { hullOf, turnedBy } from '../../geometry/plane.js';
import type { Piece } from '../layout/piece.js';
import { boxAt } from '../layout/turn-piece.js';

/**
 * The small-parts cylinder of 16 CFR 1501.4: 31.7 mm across, with a slanted bottom 25.4 to 57.1 mm deep (from memory).
 * A flat piece that goes into its largest section, 31.7 × 57.1 mm, may fit; the slanted bottom is left out of account,
 * so that rather too many are named than too few.
 */
const ACROSS = 31.7;
const DEEP = 57.1;

/** The pieces that, as cut and flat, may fit wholly into the small-parts cylinder. */
export function smallParts(pieces: readonly Piece[]): Piece[] {
  return pieces.filter(({ lines }) => {
    const hull = hullOf(lines.contours.flat());
    for (let degrees = 0; degrees < 180; degrees += 0.5) {
      const { left, low, right, high } = boxAt(hull, turnedBy(degrees));
      if (right - left <= ACROSS && high - low <= DEEP) return true;
    }
    return false;
  });
}
