import type { Finding, Unknown } from './finding.js';
import { LIMITS, type Limits } from './index.js';
import type { Bound, Has, Limit } from './limit.js';
import type { Measured } from './measured.js';

/** How one limit came out. */
export interface LimitScore {
  /** A limit of the figure file, or what every figure must do: shuts, keep clear. */
  readonly name: string;
  /** null when it could not be computed; then `unknown` says why. */
  readonly value: number | null;
  /** Of a dummy that is cut by hand with what its card gives way; none where only the drawing is asked. */
  readonly most?: number;
  /** In place of `most`, where it must be more than this. */
  readonly least?: number;
  readonly unit: string;
  readonly met: boolean;
  /** What is beyond the limit; only where it is broken. */
  readonly finding?: Finding;
  readonly unknown?: Unknown;
}

/** Ten cards of 0.3 mm are a pile of 3 mm, though not to the last bit. */
const ROUNDING = 1e-9;

/**
 * Judges what was measured by the figure's limits. `violation` sums the excess over each that is broken, by its scale;
 * what can't be told breaks nothing by itself: something else does, or it could be told.
 * @param late whether those are judged, too, that take more to look at than how it moves
 */
export function judge(
  given: Limits,
  has: Has,
  measured: Measured,
  late = true,
): { readonly limits: readonly LimitScore[]; readonly violation: number } {
  let violation = 0;
  const limits = limitsOf(given, has).map((limit): LimitScore => {
    const { name, unit, scale, leastExcess = 0, givesWay = 0 } = limit;
    const bound = widened(limit.bound(given), measured.handCut ? givesWay : 0);
    if (limit.late && !late)
      return { name, value: null, ...bound, unit, met: false, unknown: { because: 'it fails before' } };
    const reading = limit.measure(measured, given);
    if (reading === 'nothing to judge')
      return { name, value: null, ...bound, unit, met: true, unknown: { because: 'there is none' } };
    if ('unknown' in reading)
      return { name, value: null, ...bound, unit, met: false, unknown: reading.unknown };
    const { value, finding } = reading;
    const { most = Number.POSITIVE_INFINITY, least = Number.NEGATIVE_INFINITY } = bound;
    const excess = Math.max(value - most, least - value);
    if (excess > ROUNDING) violation += Math.max(leastExcess, excess / scale);
    const met = excess <= ROUNDING;
    return {
      name,
      value,
      ...bound,
      unit,
      met,
      ...(met || finding === null ? {} : { finding: { ...finding, value, unit } }),
    };
  });
  return { limits, violation };
}

/** A bound with what card gives way beyond it; none where it gives way without end. */
function widened(bound: Bound, by: number): { readonly most?: number; readonly least?: number } {
  if (!Number.isFinite(by)) return {};
  return 'most' in bound ? { most: bound.most + by } : { least: bound.least - by };
}

/** The limits of a candidate that could not be built: none is computed. */
export const notJudged = (given: Limits, has: Has, unknown: Unknown): LimitScore[] =>
  limitsOf(given, has).map((limit) => ({
    name: limit.name,
    value: null,
    ...limit.bound(given),
    unit: limit.unit,
    met: false,
    unknown,
  }));

const limitsOf = (given: Limits, has: Has): Limit<Limits>[] =>
  LIMITS.filter(({ applies }) => applies === undefined || applies(given, has));
