/**
 * A whole number as it was given.
 * @throws RangeError for anything else, and beyond the bounds
 */
export function whole(given: number, name: string, least: number, most: number): number {
  if (Number.isInteger(given) && given >= least && given <= most) return given;
  throw new RangeError(`found ${name} ${String(given)}; give a whole number from ${least} to ${most}`);
}
