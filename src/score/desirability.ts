/**
 * How desirable a value is, 0 to 1: the one- and two-sided forms of Derringer and Suich (Simultaneous optimization of
 * several response variables, Journal of Quality Technology 12, 1980) with exponent 1.
 *
 * A value right at a least or most is worth one half; it is worth 1 when it is as much better as the bound is large,
 * and 0 when as much worse. At a target it is worth 1, at the edge of the tolerance one half.
 */
export function desirability(
  value: number,
  want: { least?: number; most?: number; target?: number; tolerance?: number },
  /** What counts as much where a bound is zero, in the value's unit. */
  scale: number,
): number {
  let worth = 1;
  if (want.least !== undefined)
    worth = Math.min(worth, ramp((value - want.least) / (Math.abs(want.least) || scale)));
  if (want.most !== undefined)
    worth = Math.min(worth, ramp((want.most - value) / (Math.abs(want.most) || scale)));
  if (want.target !== undefined && want.tolerance !== undefined)
    worth = Math.min(worth, Math.max(0, 1 - Math.abs(value - want.target) / (2 * want.tolerance)));
  return worth;
}

/** What the room left to a limit is worth: one half at the limit, nothing at twice as much; null where it has no room to speak of. */
export const roomWorth = ({ value, most }: { value: number | null; most?: number }): number | null =>
  value === null || most === undefined || most <= 0 ? null : desirability(value, { most }, most);

/** 0 at −1, one half at 0, 1 at +1. */
const ramp = (t: number): number => Math.min(1, Math.max(0, (1 + t) / 2));

/** Weighted geometric mean of desirabilities: 0 as soon as one is 0, 1 when there are none. */
export function overall(worths: readonly { worth: number; weight: number }[]): number {
  let sum = 0;
  let weights = 0;
  for (const { worth, weight } of worths) {
    if (weight === 0) continue;
    if (worth <= 0) return 0;
    sum += weight * Math.log(worth);
    weights += weight;
  }
  return weights === 0 ? 1 : Math.exp(sum / weights);
}
