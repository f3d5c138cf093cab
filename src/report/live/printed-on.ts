import type { Figure } from '../../figure/figure.js';
import type { Assembly } from '../../motion/assembly.js';
import { type PrintedPanel, printedPanels } from '../../sheets/art/printed-panels.js';
import type { PageArt } from './data.js';

/** Where a figure's art lies on its panels; `art` counts its drawings. */
export function printedOn(
  assembly: Assembly,
  { faces }: Pick<Figure, 'faces'>,
  { drawings, places }: PageArt,
): PrintedPanel[] {
  const art = places.map(({ drawing, ...place }) => ({ ...place, drawing: drawings[drawing] }));
  return printedPanels(assembly, (piece) => faces.get(piece) ?? 'front', art).map((each) => ({
    ...each,
    art: places[each.art].drawing,
  }));
}
