/**
 * How far card of a dummy that is cut by hand gives way without a force worth telling, mm. A figure as drawn is not judged by
 * it: that must fit; nor are chains, whose card takes up what it can (`score/force/chain-pulls.ts`). No numbers of a maker's: what they do
 * not see.
 *
 * - A page that shuts presses flat what leans against it by 2 mm: D 8 N mm, b = L = 25 mm give 3 D b/L³ = 0.04 N/mm.
 * - A plate, or a strut, that does not meet its support bows, or the supports do, at π² D ℓ/w²: some 1 N, however far, so
 *   that 3 mm taken up over 60° of page angle are 3 N mm, 0.02 N at the edge of an A5 page.
 */
export const PRESSED_FLAT = 2;
export const BOWS = 3;
