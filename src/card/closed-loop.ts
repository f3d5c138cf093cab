import { STRENGTHS } from './grade.js';

/**
 * A loop of links that does not close: short limbs are pulled, long ones pushed, until card has given what is missing.
 *
 * Rigid panels that come as near as they can (least squares: half the sum of |rₖ|², rₖ what joint k still misses by) stand
 * where that sum has no slope: so forces rₖ at the joints hold every free panel in balance. Let card give by Cₖ at joint
 * k, mm/N, and take s rₖ for the forces, in N. From the rigid place to the true one the panels move by little, and in that
 * move forces in balance do no work (principle of virtual work); so of what joints open, Σ rₖ · gₖ = Σ |rₖ|² stays, and
 * with gₖ = s Cₖ rₖ
 *
 *   s = M / C,   M = Σ |rₖ|²,   C = Σ rₖ · Cₖ rₖ,   U = ½ M² / C.
 *
 * Exact, to first order, for a loop that can be strained in one way only, as a limb that is taut; the share of a soft
 * joint is then its share of all compliances, as of springs in a row. With more ways than one the forces are in balance all
 * the same, and U is a lower bound (Castigliano's least work).
 *
 * A limb that is pushed bears no more than Euler's load T. At s p = T it bows, at that load: beyond, it alone gives,
 * U = ½ C s² + s (M − C s), and is shortened by (M − C s)/p.
 */
export interface ClosedLoop {
  /** s, N/mm: the force at a joint over what it misses by. */
  readonly scale: number;
  /** U, N mm. */
  readonly energy: number;
  /** What is left to the limb that bows, over its own force for each s: M − C s, mm². */
  readonly bowed: number;
}

/**
 * @param missed M, mm² @param compliance C, mm³/N, above 0
 * @param most s at which the weakest of the limbs that are pushed bows, N/mm; Infinity where none is pushed
 */
export function closedLoop(missed: number, compliance: number, most: number): ClosedLoop {
  const scale = Math.min(missed / compliance, most);
  return {
    scale,
    energy: scale * (missed - (compliance * scale) / 2),
    // To the last bit: what does not bow is not shortened.
    bowed: missed <= compliance * most ? 0 : missed - compliance * scale,
  };
}

/**
 * How far a strip gives at its end that is held at the other, over the force, mm/N: out of its plane as a cantilever,
 * ∫ x²/B dx (by the unit load; L³/3B for an even one), and pulled along itself, ∫ dx/A.
 * @param bends and pulls: B, N mm², and A, N, of strips of one length, from the end that is loaded
 */
export function endGives(
  bends: ArrayLike<number>,
  pulls: ArrayLike<number>,
  length: number,
): { readonly out: number; readonly along: number } {
  const step = length / bends.length;
  let out = 0;
  let along = 0;
  for (let k = 0; k < bends.length; k++) {
    out += (((k + 1) ** 3 - k ** 3) * step ** 3) / 3 / bends[k];
    along += step / pulls[k];
  }
  return { out, along };
}

/**
 * What a paper hub, or the end of a link, holds before it tears out, N: card tears at 2 %, and beside a hub's hole there is some
 * 1 mm of it. So card of E t 1000 N/mm holds 20 N.
 * @param pull E t, N/mm
 */
export const hubHolds = (pull: number): number => pull * STRENGTHS.tears * BESIDE_A_HOLE;
const BESIDE_A_HOLE = 1;
