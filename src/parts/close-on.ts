import type { Way } from '../card/fold-room.js';

type Pair = readonly [number, number];

/**
 * Where the second foot of a fold comes to lie when the page is shut on it: so that both panels bring their crease to one
 * place, as far off as they were drawn, and as exactly as it is closed on.
 * @param feet and sides: as drawn and as cut; the cut second foot errs by how exactly it is closed on
 */
export function secondFootClosedOn(
  drawn: { readonly feet: Pair; readonly sides: Pair },
  cut: { readonly feet: Pair; readonly sides: Pair },
  way: Way,
): number {
  const off = (i: 0 | 1) => cut.sides[i] - drawn.sides[i];
  return cut.feet[1] + cut.feet[0] - drawn.feet[0] + way * (off(0) - off(1));
}
