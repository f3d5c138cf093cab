import type { Line } from '../geometry/line.js';

/**
 * A crease on which a later part may stand: the same world line seen in the frames of two panels.
 * With e the unit direction of the line and n₁, n₂ the directions, square to e, in which the panels lie from it:
 * nᵢ = sidesᵢ · (zᵢ × e), and `sense` is the sign of (n₁ × n₂) · e, which stays the same between the flat states.
 */
export interface Crease {
  readonly name: string;
  readonly between: readonly [number, number];
  readonly lines: readonly [Line, Line];
  readonly sides: readonly [1 | -1, 1 | -1];
  readonly sense: 1 | -1;
}
