/**
 * A strip bowed between hinged ends: the elastica (Euler; Timoshenko and Gere, Theory of Elastic Stability, ch. 2).
 *
 * With k = sin(α/2), α the slope at the ends, K and E the complete elliptic integrals of the first and second kind:
 *   P / P_cr = (2K/π)²,   sagitta / L = k / K,   shortening / L = 2 (1 − E/K),   P_cr = π² B / L².
 */
export interface Elastica {
  /** Load over Euler's. */
  readonly load: number;
  /** Greatest offset from the chord, and how much nearer the ends are, over the length of the strip. */
  readonly sagitta: number;
  readonly shortening: number;
}

/** The bowed strip whose ends slope by `slope`, radians in (0, π). */
export function elastica(slope: number): Elastica {
  const k = Math.sin(slope / 2);
  const { first, second } = completeElliptic(k);
  return {
    load: ((2 * first) / Math.PI) ** 2,
    sagitta: k / first,
    shortening: 2 * (1 - second / first),
  };
}

/** Euler's load of a strip between hinged ends, N. @param bend B: stiffness of the whole strip, N mm² */
export const eulerLoad = (bend: number, length: number): number => (Math.PI / length) ** 2 * bend;

/**
 * Complete elliptic integrals of the first and second kind, by the arithmetic-geometric mean (Abramowitz and Stegun
 * 17.6). @param k modulus, 0 to 1 (k = 1 has no first integral)
 */
export function completeElliptic(k: number): { readonly first: number; readonly second: number } {
  let a = 1;
  let b = Math.sqrt(1 - k * k);
  let c = k;
  let sum = (c * c) / 2;
  for (let weight = 1; Math.abs(c) > 1e-17 * a && weight < 1e6; weight *= 2) {
    const mean = (a + b) / 2;
    c = (a - b) / 2;
    b = Math.sqrt(a * b);
    a = mean;
    sum += weight * c * c;
  }
  const first = Math.PI / (2 * a);
  return { first, second: first * (1 - sum) };
}
