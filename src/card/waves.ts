/**
 * Energy of a panel folded into waves between walls, over B f²/(w h²).
 * n arcs of sagitta h and length w/n are shortened by f = n² π²h²/4w and hold n · (π² B n²/w²)(f/n) = 4 B f²/(w h²), at
 * whatever n. The pages are no walls of one height: they meet at the gutter, and the panel runs across from one to the
 * other. 1.4 × 4 fits tents computed as shells of triangles.
 */
export const WAVES = 1.4 * 4;

/**
 * Those arcs bend to a curvature of (πn/w)² h = 4f/wh, which strains the faces of card by
 * t/2 times as much: 2 t f/(w h). The greatest in the shells is 1.85 times that.
 */
export const PEAK_WAVES = 3.7;
