/**
 * Card that is too short for its parents to open flat: a toggle.
 *
 * Opened to φ short of flat, feet a or angles g from the crease are D ≈ Σd − a φ²/2 apart (a = d₁d₂/(d₁ + d₂); about a
 * vertex a = sin g₁ sin g₂ / sin(g₁ + g₂)). Card that lacks e stops rigid pages at a φ₀²/2 = e. Stretched further it holds
 * U = ½ c K (e − aφ²/2)², whose slope c K a φ (e − aφ²/2) is greatest at φ₀/√3.
 */
type Pair = readonly [number, number];

/** a of a parallel fold, mm: distances of the feet. */
export const parallelToggle = ([d1, d2]: Pair): number => (d1 * d2) / (d1 + d2);

/** a of a fold about a vertex: glue angles, radians, whose sum is not 180°. */
export const vertexToggle = ([g1, g2]: Pair): number =>
  (Math.sin(g1) * Math.sin(g2)) / Math.abs(Math.sin(g1 + g2));

/** How far short of flat rigid card stops, radians. */
export const rigidStop = (lack: number, toggle: number): number => Math.sqrt((2 * lack) / toggle);

/** The greatest torque on the way from there to flat, N mm. @param pull c K */
export const toggleTorque = (pull: number, lack: number, toggle: number): number =>
  (2 / (3 * Math.sqrt(3))) * pull * lack * toggle * rigidStop(lack, toggle);

/**
 * c: the share of the membrane's stiffness that a sector shows when it is opened. A strap takes it all; a wide sector
 * draws its middle towards the apex instead. From shells of triangles: 0.4 at 129°, 0.2 at 160°; a straight line between
 * and beyond, as far as 1.
 */
export const openingShare = (sectors: number): number =>
  Math.min(1, Math.max(0.07, 0.4 - (0.2 * (sectors - 129 * RADIANS)) / (31 * RADIANS)));

const RADIANS = Math.PI / 180;
