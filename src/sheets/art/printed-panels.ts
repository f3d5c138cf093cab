import { moved, undoing } from '../../geometry/plane.js';
import type { Assembly } from '../../motion/assembly.js';
import { cardsOf } from '../nets/cards.js';
import { framesOf } from '../nets/fold-sense.js';
import { linksOf } from '../nets/links.js';
import { printedFaces } from '../nets/seen.js';
import { tabsOf } from '../nets/tabs.js';
import { unfold } from '../nets/unfold.js';
import { type ArtPlace, areasUnder, layingOf, type Matrix, matrixOf } from './place-art.js';

/** Art on a panel of a figure. */
export interface PrintedPanel {
  /** Its place among the panels. */
  readonly panel: number;
  /** The face that is printed: +1 for the +z of the panel's own frame. */
  readonly face: 1 | -1;
  /** Its place in the list of art. */
  readonly art: number;
  /** From mm from the drawing's top left corner, y down, to the panel's own plane. */
  readonly matrix: Matrix;
}

/**
 * Where art lies on the panels of a figure, as the sheets print it: the figure is unfolded for that. What is under glue
 * is printed here, too.
 * @param faceOf which face of a piece is printed, as in the settings of the sheets
 */
export function printedPanels(
  assembly: Assembly,
  faceOf: (piece: string) => 'front' | 'back',
  art: readonly ArtPlace[],
): PrintedPanel[] {
  if (art.length === 0) return [];
  const frames = framesOf(assembly);
  const cards = cardsOf(assembly);
  const links = linksOf(assembly, cards, tabsOf(assembly, cards, frames, false), frames);
  const { nets } = unfold(assembly, cards, links, printedFaces(assembly, cards, frames, faceOf));
  return art.flatMap(({ on, ...how }, i) =>
    nets.flatMap((net) => {
      const own = areasUnder(assembly, net, on);
      const laying = layingOf(assembly, own, how);
      if (laying === undefined) return [];
      return own.map(({ panel, place }): PrintedPanel => {
        const toPanel = undoing(place);
        const matrix = matrixOf((point) => moved(toPanel, laying.to(point)));
        return { panel, face: place.flip, art: i, matrix };
      });
    }),
  );
}
