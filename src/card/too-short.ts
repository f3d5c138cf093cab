/**
 * Card that is too short for its parents to open flat is stretched as they do: a toggle. Opened to φ short of flat, its feet are
 * D ≈ Σd − a φ²/2 apart, so that card that lacks e stops rigid pages at a φ₀²/2 = e, and stretched further holds
 * U = ½ c K (e − aφ²/2)².
 *
 * c: the share of the membrane's stiffness that a sector shows when it is opened. A strap takes it all; a wide sector
 * draws its middle towards the apex instead. From shells of triangles: 0.4 at 129°, 0.2 at 160°; a straight line between
 * and beyond, as far as 1.
 */
export const openingShare = (sectors: number): number =>
  Math.min(1, Math.max(0.07, 0.4 - (0.2 * (sectors - 129 * RADIANS)) / (31 * RADIANS)));

const RADIANS = Math.PI / 180;
