import type { Ring, Shape } from '../../geometry/plane.js';
import { grown, solid } from '../../geometry/region.js';

/** The area that artwork must cover so that no bare card shows if the cut is off: all within `reach` mm of the card. */
export function withBleed(contours: readonly Ring[], reach: number): Shape[] {
  return grown(contours.map(solid), reach);
}
