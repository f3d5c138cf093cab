/**
 * A crease as a spring: M = k ℓ (ψ_rest − ψ), with ψ the angle between the panels (180° flat) and k in N mm/rad per mm.
 * k = D/L* with L* of 25 to 100 mm (Filipov, Liu, Tachi, Schenk and Paulino 2017, from memory): some 0.1 for card of
 * 240 g/m². Folded flat once it opens by itself to some 75° (60 to 90°, from memory).
 */
const CREASE_LENGTH = 80;
export const CREASE_REST = (75 * Math.PI) / 180;

/** k of card that bends with D. */
export const creaseStiffness = (bend: number): number => bend / CREASE_LENGTH;
