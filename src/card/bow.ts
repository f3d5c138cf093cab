/**
 * What it takes to bow a panel, by shortening it, before it stretches at all. Both loads are those at which it first
 * bows; the elastica needs only 6 % more at end slopes of 40°, so the energy of shortening by f is T f.
 */

/** Euler's load of a strip between hinged ends, N. @param bend B: stiffness of the whole strip, N mm² */
export const eulerLoad = (bend: number, length: number): number => (Math.PI / length) ** 2 * bend;

/** A panel between parallel creases bows as a cylinder, N. @param bend D, N mm @param width between its creases, mm */
export const cylinderBowLoad = (bend: number, length: number, width: number): number =>
  eulerLoad(bend * length, width);

/**
 * A panel between creases that meet at an apex bows as a cone, N mm (for each radian by which its sector is lessened).
 *
 * Let a sector of angle p be raised by r y(φ), y small, y = 0 at both creases. It stays a cone, and developable where the
 * arc traced on the unit sphere keeps its length: the angle between the creases lessens by f = ½∫(y'² − y²) dφ, which
 * for y = a sin(πφ/p) is a² p/4 · (π²/p² − 1). The curvature at radius r is (y'' + y)/r, so the energy is
 * ½ D Λ ∫(y'' + y)² dφ with Λ = ∫ dr/r = ln(R/r₀), which is ½ D Λ a² p/2 (π²/p² − 1)² = D Λ (π²/p² − 1) f.
 * At p = π/n this is n² − 1: of the states of a cone with an excess angle, the n-fold one (Müller, Ben Amar and
 * Guven 2008).
 */
export const coneBowLoad = (bend: number, spread: number, sector: number): number =>
  bend * spread * Math.max(LEAST_CONE, (Math.PI / sector) ** 2 - 1);

/** A sector near 180° has next to no load of its own; what stays is kept above 0, so that nothing is divided by it. */
const LEAST_CONE = 0.05;

/** Λ = ln(R/r₀). @param outer and inner radius, mm: card begins at the inner one, or crumples as far as that */
export const coneSpread = (outer: number, inner: number): number =>
  Math.log(Math.max(outer / inner, Math.E / 2));

/** Card at the apex of a cone crumples as far as this, mm. (From memory: some ten to twenty thicknesses.) */
export const CRUMPLED = 5;

/** How far the middle of a cylinder stands off its chord, mm, once shortened by f: (2/π) √(f w), from f = π²a²/4w. */
export const cylinderBow = (forced: number, width: number): number =>
  (2 / Math.PI) * Math.sqrt(forced * width);

/** The same of a cone at its outer edge, mm, its sector lessened by f radians: see `coneBowLoad`. */
export const coneBow = (forced: number, sector: number, outer: number): number =>
  outer * Math.sqrt((4 * forced) / (sector * Math.max(LEAST_CONE, (Math.PI / sector) ** 2 - 1)));
