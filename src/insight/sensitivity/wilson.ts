/** The two-sided 95 % point of the standard normal distribution. */
const Z95 = 1.959963984540054;

export interface Share {
  count: number;
  of: number;
  share: number;
  /** 95 % interval. */
  low: number;
  high: number;
}

/**
 * A share with Wilson's 95 % score interval, which keeps its coverage near 0 and 1 and for small samples.
 *
 * All p for which the observed share lies within z standard errors: (share − p)² ≤ z² p (1 − p) / n. The two roots
 * of that quadratic are (share + z²/2n ± z √(share (1 − share)/n + z²/4n²)) / (1 + z²/n).
 * Source: E. B. Wilson, Probable inference, the law of succession, and statistical inference, JASA 22 (1927) 209-212.
 *
 * @throws RangeError unless 0 ≤ count ≤ of and of ≥ 1: no share can be told from no trials
 * @example wilson(0, 20) // { share: 0, low: 0, high: 0.161, … }
 */
export function wilson(count: number, of: number): Share {
  if (!(of >= 1 && count >= 0 && count <= of)) {
    throw new RangeError(`no share can be told from ${count} of ${of}`);
  }
  const share = count / of;
  const zz = Z95 * Z95;
  const middle = share + zz / (2 * of);
  const reach = Z95 * Math.sqrt((share * (1 - share)) / of + zz / (4 * of * of));
  const scale = 1 + zz / of;
  // At count 0 and count n the roots are exactly 0 and 1; round-off would leave 1e-18.
  const low = count === 0 ? 0 : (middle - reach) / scale;
  const high = count === of ? 1 : (middle + reach) / scale;
  return { count, of, share, low, high };
}
