import { placeNames } from '../../edit/mentions.js';
import type { BuiltFigure } from '../../figure/built.js';
import { ANY } from '../../figure/measured/forms.js';
import type { FigureSource } from '../../figure/text/source.js';
import type { PlaceSent } from './sent.js';

/** The named points of a file, where they can be worked out. */
export function placesOn(source: FigureSource, built: BuiltFigure): PlaceSent[] {
  return placeNames(source).flatMap((name) => {
    const mark = built.point(name, [], ANY);
    if (mark === null) return [];
    return [{ name, panel: built.assembly.panels[mark.panel].name, at: [mark.x, mark.y] }];
  });
}
