/**
 * Below this spread (mm, degrees or shares) an output counts as constant: the kernel's own round-off near a flat
 * state is some 1e-6 mm, and shares of a variance made of round-off would look like findings.
 */
const DUST = 1e-5;

export const DOES_NOT_VARY = 'does not vary';

/** Whether the numbers in `values` differ by more than the kernel's round-off. NaN entries are skipped. */
export function varies(values: ArrayLike<number>): boolean {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return high - low > DUST;
}
