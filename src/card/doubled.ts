import type { Stiffness } from './stock.js';

/**
 * Card on which card is glued: stiffeners, flat pieces, tabs.
 *
 * Two plates glued together share one neutral plane. With E t = A each, and their middles (t₁ + t₂)/2 apart,
 *
 *   A = A₁ + A₂,   D = D₁ + D₂ + A₁ A₂/(A₁ + A₂) · ((t₁ + t₂)/2)²
 *
 * (the parallel axis theorem): of two alike D is 8 times that of one, as of a plate twice as thick.
 */
export function gluedTogether(
  one: Stiffness,
  thickness: number,
  on: Stiffness,
  onThickness: number,
): Stiffness {
  const apart = (thickness + onThickness) / 2;
  const pull = one.pull + on.pull;
  return { pull, bend: one.bend + on.bend + ((one.pull * on.pull) / pull) * apart * apart };
}

/**
 * The stiffness of a bowed panel that is not the same from crease to crease, as of one that is. In each strip along the
 * creases the stiffnesses of what lies side by side add up to B(s), since all of it takes one curvature.
 *
 * A strip between hinges that bows by y under a load T carries the moment T y, so that it holds ½ ∫ (T y)²/B ds; its ends
 * draw nearer by ½ ∫ y'² ds. Both are one energy at T = ∫ y'² ds / ∫ y²/B ds (Timoshenko and Gere, Theory of Elastic
 * Stability, ch. 2: by the moment, which is nearer than by the curvature). With the sine of an even strip,
 *
 *   T = π²/w² · B̄,   1/B̄ = 2 ∫ sin²(πs)/B ds from 0 to 1,
 *
 * an upper bound: 8 times as stiff over the middle half, it is 13 % above the load at which such a strip bows. About a vertex B κ takes the place of the moment, κ = y'' + y: (Bκ)'' + Bκ = −T (y'' + y), so Bκ = −T y,
 * and T = ∫ (y'² − y²) dφ / ∫ y²/B dφ = (π²/p² − 1) B̄, with the same mean.
 * @param strips B of strips of one breadth, from crease to crease
 */
export function bendAcross(strips: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < strips.length; k++) {
    const [from, to] = [k / strips.length, (k + 1) / strips.length];
    const weight = to - from - (Math.sin(2 * Math.PI * to) - Math.sin(2 * Math.PI * from)) / (2 * Math.PI);
    sum += weight / strips[k];
  }
  return 1 / sum;
}

/** Of strips that are pulled one after the other: the harmonic mean. */
export function pullAcross(strips: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < strips.length; k++) sum += 1 / strips[k];
  return strips.length / sum;
}
