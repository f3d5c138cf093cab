/**
 * A strip shortened between two walls that leave it a height h: it bows, touches, lies along the wall, and at last folds
 * into waves. (Derived here; the setting is that of Domokos, Holmes and Royce, Constrained Euler buckling, 1997.)
 *
 * - A bow of sagitta h has the shortening π²h²/4L: first touch, at P_cr.
 * - Then it touches in one point. Where the curvature there has gone, half the strip is y = (h/π)(kx + sin kx), k = 2π/L:
 *   the shortening is 3h²/L, the load 4 P_cr.
 * - Then its middle lies along the wall, and ends of length s = 1.5 h²/δ rise to it: P = π²B/s² = P_cr (δL/1.5h²)².
 */
export interface StripBetweenWalls {
  /** Shortening at first touch, and where it begins to lie along the wall, mm. */
  readonly touch: number;
  readonly along: number;
  /** Load over Euler's, once it lies along the wall. */
  load(shortening: number): number;
}

export function stripBetweenWalls(length: number, height: number): StripBetweenWalls {
  const square = (height * height) / length;
  return {
    touch: ((Math.PI * Math.PI) / 4) * square,
    along: 3 * square,
    load: (shortening) => (shortening / (1.5 * square)) ** 2,
  };
}

/**
 * Energy of a panel folded into waves between walls, over B f²/(w h²).
 * n arcs of sagitta h and length w/n are shortened by f = n² π²h²/4w and hold n · (π² B n²/w²)(f/n) = 4 B f²/(w h²), at
 * whatever n. The pages are no walls of one height: they meet at the gutter, and the panel runs across from one to the
 * other. 1.4 × 4 fits tents computed as shells of triangles.
 */
export const WAVES = 1.4 * 4;
