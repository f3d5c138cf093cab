/**
 * What follows in closed form from how card of a fold is forced, to hold the program's curves against.
 *
 * Opened to φ short of flat, feet at angles g from the crease are D ≈ Σg − a φ²/2 apart, a = sin g₁ sin g₂ / sin(g₁ + g₂). Card that
 * lacks e stops rigid pages at a φ₀²/2 = e. Stretched further it holds U = ½ c K (e − aφ²/2)², whose slope c K a φ (e − aφ²/2) is
 * greatest at φ₀/√3.
 */
type Pair = readonly [number, number];

/** a of a fold about a vertex: glue angles, radians, whose sum is not 180°. */
export const vertexToggle = ([g1, g2]: Pair): number =>
  (Math.sin(g1) * Math.sin(g2)) / Math.abs(Math.sin(g1 + g2));

/** How far short of flat rigid card stops, radians. */
export const rigidStop = (lack: number, toggle: number): number => Math.sqrt((2 * lack) / toggle);

/** The greatest torque on the way from there to flat, N mm. @param pull c K */
export const toggleTorque = (pull: number, lack: number, toggle: number): number =>
  (2 / (3 * Math.sqrt(3))) * pull * lack * toggle * rigidStop(lack, toggle);

/** The angle between the parents at which an excess first needs force, radians; π where it always does. */
export const contactAngle = (excess: number, room: number): number =>
  2 * Math.asin(Math.min(1, Math.sqrt(Math.abs(excess) / room)));
