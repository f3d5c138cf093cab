/**
 * Solves A x = b for several b at once, A symmetric and positive definite, by Cholesky's factors: A = L Lᵀ, then L y = b and
 * Lᵀ x = y (any textbook of numerical analysis).
 * @param a row by row, of which the lower half is read; L is left in its place
 * @param b a row to each unknown, a column to each right side; what is found is left in its place
 * @param size number of unknowns
 * @throws RangeError where A is not positive definite
 * @example
 * const x = Float64Array.of(2, 3);
 * solve(Float64Array.of(4, 0, 2, 3), x, 2); // x is now [0, 1]
 */
export function solve(a: Float64Array, b: Float64Array, size: number): void {
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) {
      let rest = a[i * size + j];
      for (let k = 0; k < j; k++) rest -= a[i * size + k] * a[j * size + k];
      if (i === j && !(rest > 0)) throw new RangeError('The matrix is not positive definite.');
      a[i * size + j] = i === j ? Math.sqrt(rest) : rest / a[j * size + j];
    }
  const sides = b.length / size;
  for (let side = 0; side < sides; side++) {
    for (let i = 0; i < size; i++) {
      let rest = b[i * sides + side];
      for (let k = 0; k < i; k++) rest -= a[i * size + k] * b[k * sides + side];
      b[i * sides + side] = rest / a[i * size + i];
    }
    for (let i = size - 1; i >= 0; i--) {
      let rest = b[i * sides + side];
      for (let k = i + 1; k < size; k++) rest -= a[k * size + i] * b[k * sides + side];
      b[i * sides + side] = rest / a[i * size + i];
    }
  }
}
