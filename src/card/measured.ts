/**
 * D from what a maker can measure, N mm.
 */
const RADIANS = Math.PI / 180;
/** Standard gravity, m/s². */
export const GRAVITY = 9.80665;

/**
 * Bending resistance of a strip, clamped and pushed aside at a distance L by an angle α, as ISO 2493 and ISO 5628 measure
 * it: S_b = 60 F L²/(π α b), α in degrees. (Form from memory; it follows from F = 3 EI δ/L³ with δ = α L.)
 * @param force N @param angle degrees @param distance and width, mm
 * @returns bending stiffness for a width of 1 mm, which is D: N mm (1 mN m is 1 N mm)
 */
export const stiffnessFromResistance = (
  force: number,
  angle: number,
  distance: number,
  width: number,
): number => (60 * force * distance * distance) / (Math.PI * angle * width);

/**
 * A strip laid over a table's edge: its own weight q = m g bends it down by q L⁴/(8 D) at the end, so D = q L⁴/(8 δ)
 * (a cantilever under even load; Timoshenko and Gere). Good to 5 % where it sags less than a third of its length.
 * @param grammage g/m² @param overhang and drop of its end, mm
 */
export function stiffnessFromSag(grammage: number, overhang: number, drop: number): number {
  // g/m² × m/s² = mN/m² = 1e-9 N/mm².
  const weight = grammage * GRAVITY * 1e-9;
  return (weight * overhang ** 4) / (8 * drop);
}

/**
 * A strip folded flat, let go and laid with one half on the table: the other half, m g a heavy for each mm of crease,
 * stands at the angle ψ where the crease holds its weight: k (ψ_rest − ψ) = m g a²/2 · cos ψ. Laid so that the free half
 * hangs (the crease at the table's edge) it stands elsewhere; from two angles both k and the rest follow.
 * @param grammage g/m² @param free length of the free half, mm @param rest angle at which it stays when laid on its side
 * @param laid angle at which it stays with one half flat on the table, degrees
 * @returns k, N mm/rad for each mm of crease; null where weight moves it too little to tell
 */
export function creaseFromStrip(grammage: number, free: number, rest: number, laid: number): number | null {
  const weight = grammage * GRAVITY * 1e-9;
  const yields = (rest - laid) * RADIANS;
  return yields > 0.01 ? ((weight * free * free) / 2) * (Math.cos(laid * RADIANS) / yields) : null;
}
