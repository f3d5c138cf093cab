import type { Grain } from '../../figure/card.js';
import {
  type Box,
  boxOf,
  direction,
  distance,
  edgesOf,
  hullOf,
  type Isometry,
  movedRing,
  type Ring,
  turnedBy,
} from '../../geometry/plane.js';
import type { Net } from '../nets/net.js';

const DEGREES = 180 / Math.PI;

/**
 * The direction, in degrees, of the line on which a piece stands: its longest crease with a tab; of a page the gutter;
 * of a piece without tabs its longest crease. Null where it has none.
 */
function standingLine({ areas, folds }: Net): number | null {
  const feet = folds.filter(({ between }) => between.some((area) => areas[area].kind === 'tab'));
  const all = feet.length > 0 ? feet : folds;
  if (all.length === 0) return null;
  const { line } = all.reduce((a, b) => (distance(...b.line) > distance(...a.line) + 1e-6 ? b : a));
  const [x, y] = direction(line);
  return Math.atan2(y, x) * DEGREES;
}

/**
 * How far to turn a piece, degrees: with a grain, so that the line on which it stands runs along or across the sheet's; else
 * so that the box around it is smallest (one side of that box lies along an edge of the hull: Freeman and Shapira 1975).
 * @param grainUp whether the sheet's grain runs up the sheet
 */
export function turnFor(
  net: Net,
  contours: readonly Ring[],
  grain: Grain | undefined,
  grainUp: boolean,
): number {
  if (hasGrain(grain)) {
    const wanted = (grain === 'along') === grainUp ? 90 : 0;
    return wanted - (standingLine(net) ?? 90);
  }
  const hull = hullOf(contours.flat());
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (const edge of [null, ...edgesOf(hull)]) {
    const turn =
      edge === null ? 0 : -Math.atan2(...([...direction(edge)].reverse() as [number, number])) * DEGREES;
    const { left, low, right, high } = boxAt(hull, turnedBy(turn));
    const area = (right - left) * (high - low);
    // Better by more than round-off only, so that a piece that lies straight stays as it is.
    if (area < least * (1 - 1e-6)) {
      least = area;
      best = turn;
    }
  }
  return best;
}

/** Whether it matters how a piece lies. */
export const hasGrain = (grain: Grain | undefined): boolean => grain === 'along' || grain === 'across';

export function boxAt(ring: Ring, place: Isometry): Box {
  return boxOf(movedRing(place, ring));
}
