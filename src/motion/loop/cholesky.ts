/**
 * Factors a symmetric matrix as L Lᵀ, by rows; zeros in front of a row's first entry stay zeros in L and are skipped.
 *
 * @param a n × n, row-major; only its lower triangle is read
 * @param starts for each row, the column of its first entry that may not be zero
 * @param shift added to the diagonal
 * @param l receives L in its lower triangle, from each row's start on, but for its diagonal the reciprocals (they are
 * only ever divided by); may not be `a`
 * @returns false where a + shift is not positive definite to working precision; `l` is then unfinished
 * (George and Liu, *Computer Solution of Large Sparse Positive Definite Systems*: the envelope method.)
 */
export function factor(
  a: Float64Array,
  starts: Int32Array,
  n: number,
  shift: number,
  l: Float64Array,
): boolean {
  for (let i = 0; i < n; i++) {
    const row = i * n;
    const start = starts[i];
    let rest = a[row + i] + shift;
    for (let j = start; j < i; j++) {
      const other = j * n;
      let sum = a[row + j];
      for (let k = Math.max(start, starts[j]); k < j; k++) sum -= l[row + k] * l[other + k];
      const entry = sum * l[other + j];
      l[row + j] = entry;
      rest -= entry * entry;
    }
    if (!(rest > 1e-14 * a[row + i])) return false;
    l[row + i] = 1 / Math.sqrt(rest);
  }
  return true;
}

/** Solves L Lᵀ x = b for a factor that `factor` made. `x` may be `b`. */
export function solveFactored(
  l: Float64Array,
  starts: Int32Array,
  n: number,
  b: Float64Array,
  x: Float64Array,
): void {
  for (let i = 0; i < n; i++) {
    let sum = b[i];
    for (let k = starts[i]; k < i; k++) sum -= l[i * n + k] * x[k];
    x[i] = sum * l[i * n + i];
  }
  for (let i = n - 1; i >= 0; i--) {
    x[i] *= l[i * n + i];
    for (let k = starts[i]; k < i; k++) x[k] -= l[i * n + k] * x[i];
  }
}
