import type { Net } from './net.js';
import {
  type Box,
  boxOf,
  direction,
  distance,
  edgesOf,
  type Isometry,
  movedRing,
  type Ring,
  turnedBy,
} from './plane.js';
import { hullOf } from './region.js';

const DEGREES = 180 / Math.PI;

/** The main crease of a net: the longest between two panels, else the longest of all; its direction, degrees. */
export function mainCrease({ areas, folds }: Net): number | null {
  const between = folds.filter(
    ({ between: [a, b] }) => areas[a].kind === 'panel' && areas[b].kind === 'panel',
  );
  const all = between.length > 0 ? between : folds;
  if (all.length === 0) return null;
  const { line } = all.reduce((a, b) => (distance(...b.line) > distance(...a.line) + 1e-6 ? b : a));
  const [x, y] = direction(line);
  return Math.atan2(y, x) * DEGREES;
}

/**
 * How far to turn a piece, degrees: with a grain, so that its main crease runs along or across the sheet's grain; else
 * so that the box around it is smallest (one side of that box lies along an edge of the hull: Freeman and Shapira 1975).
 * @param grainUp whether the sheet's grain runs up the sheet
 */
export function turnFor(
  net: Net,
  contours: readonly Ring[],
  grain: 'along' | 'across' | undefined,
  grainUp: boolean,
): number {
  if (grain !== undefined) {
    const crease = mainCrease(net) ?? 90;
    const wanted = (grain === 'along') === grainUp ? 90 : 0;
    return wanted - crease;
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

export function boxAt(ring: Ring, place: Isometry): Box {
  return boxOf(movedRing(place, ring));
}
