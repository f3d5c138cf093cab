import { existsSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Art } from '../../figure/art.js';
import { Drawing } from '../../figure/outlines/drawing.js';
import { lowerLeftOf } from '../../figure/outlines/drawn-outline.js';
import { PathFault } from '../../figure/outlines/flatten.js';
import { fileBeside, MOST_PNG_BYTES, MOST_SVG_BYTES } from '../../figure/read.js';
import { faultAt } from '../../figure/text/check.js';
import { quoted } from '../../figure/text/input-error.js';
import { type Refuse, readText } from '../../figure/text/read-text.js';
import type { FigureSource } from '../../figure/text/source.js';
import { cleanDrawing } from './clean-drawing.js';
import { cleanPicture } from './clean-picture.js';
import type { PanelArt } from './place-art.js';

/**
 * Reads the drawings that are printed on a figure's panels.
 * @returns them, and what of them is not printed, a line each
 * @throws InputError with the place in the figure file
 */
export function readPanelArt(
  source: FigureSource,
  art: readonly Art[],
): { art: PanelArt[]; notes: string[] } {
  const notes: string[] = [];
  if (art.length === 0) return { art: [], notes };
  // A study may be shown where its figure file no longer is; a figure that was never a file has no drawings.
  if (!existsSync(source.file))
    return {
      art: [],
      notes: [
        `The drawings of this figure lie beside ${source.file}, which is not there: nothing is printed.`,
      ],
    };
  const folder = realpathSync(dirname(source.file));
  const read = art.flatMap(({ on, drawing: name, path, ...place }, i): PanelArt[] => {
    const refuse: Refuse = (found, remedy) =>
      faultAt(source, ['art', i, 'drawing'], remedy, `${found} in ${quoted(name)}`);
    // A figure file may have been written elsewhere, as those of tune are.
    if (!existsSync(join(folder, name))) {
      notes.push(
        `${quoted(name)} is not beside the figure file: nothing is printed on ${on.map(quoted).join(', ')}.`,
      );
      return [];
    }
    const file = fileBeside(folder, name, refuse);
    try {
      if (/\.png$/i.test(name)) {
        if (path !== undefined) throw new PathFault('a picture, which has no paths', 'leave path out');
        if (statSync(file).size > MOST_PNG_BYTES)
          throw new PathFault('a picture too large', `keep it under ${MOST_PNG_BYTES} bytes`);
        const picture = cleanPicture(readFileSync(file));
        return on.map((panel) => ({ ...place, on: panel, drawing: picture }));
      }
      const text = readText(file, MOST_SVG_BYTES, refuse);
      const drawing = cleanDrawing(text);
      // The outline's own corner, so that outline and art come from one drawing.
      const zero = place.zero ?? (path === undefined ? undefined : lowerLeftOf(new Drawing(text), path));
      if (drawing.left.length > 0)
        notes.push(
          `${quoted(name)} has what is not printed: ${drawing.left.slice(0, 8).map(quoted).join(', ')}. Turn it into paths in plain colours.`,
        );
      return on.map((panel) => ({ ...place, on: panel, zero, drawing, asOutline: path !== undefined }));
    } catch (error) {
      if (error instanceof PathFault) throw refuse(error.found, error.remedy);
      throw error;
    }
  });
  return { art: read, notes };
}
