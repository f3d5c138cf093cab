/**
 * How far card of a dummy that is cut by hand gives way without a force worth telling, mm. A figure as drawn is not judged by
 * it: that must fit.
 *
 * - A free edge that is pushed bends aside at 3 D b/L³, and a page that shuts presses flat what leans against it: D 8 N mm,
 *   b = L = 25 mm give 0.04 N/mm, so that 2 mm take less than 0.1 N. (A piece 10 mm square takes 0.5 N.)
 * - Two panels that have folded flat on one another at a crease lie on each other, however far they would go on turning by
 *   what they err: 8 mm at the end of 50 mm is 9°, and nearer than 10° to flat nobody sees it.
 * - A plate, or a strut, that does not meet its support bows, or the supports do, at π² D ℓ/w²: some 1 N, however far, so
 *   that 3 mm taken up over 60° of page angle are 3 N mm, 0.02 N at the edge of an A5 page.
 */
export const BENDS_ASIDE = 2;
export const LIES_FLAT = 8;
export const BOWS = 3;
