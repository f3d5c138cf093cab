import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Art } from '../../figure/art.js';
import { Drawing } from '../../figure/outlines/drawing.js';
import { lowerLeftOf } from '../../figure/outlines/drawn-outline.js';
import { PathFault } from '../../figure/outlines/flatten.js';
import { fileBeside, MOST_BYTES_OF_ALL, MOST_PNG_BYTES, MOST_SVG_BYTES } from '../../figure/read.js';
import { faultAt } from '../../figure/text/check.js';
import { quoted } from '../../figure/text/input-error.js';
import { type Refuse, readBytes, readText } from '../../figure/text/read-text.js';
import type { FigureSource } from '../../figure/text/source.js';
import { type CleanDrawing, cleanDrawing } from './clean-drawing.js';
import { cleanPicture, MOST_POINTS, pointsOf } from './clean-picture.js';
import type { PanelArt } from './place-art.js';

/** Most points of all pictures of one figure: each is unfolded and folded again for every PDF. */
const MOST_POINTS_OF_ALL = 2 * MOST_POINTS;
/** Most letters of all paths, each as often as it is drawn. */
const MOST_LETTERS = 20_000_000;

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
  const folder = dirname(source.file);
  const drawings = new Drawings();
  let letters = 0;
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
    const file = fileBeside(source.file, name, refuse);
    try {
      const { drawing, text } = drawings.read(file, refuse);
      letters += on.length * drawing.strokes.reduce((sum, { d }) => sum + d.length, 0);
      if (letters > MOST_LETTERS)
        throw new PathFault('too much to draw on so many panels', 'simplify it, or lay it on fewer');
      if (drawing.picture !== null) {
        if (path !== undefined) throw new PathFault('a picture, which has no paths', 'leave path out');
        return on.map((panel) => ({ ...place, on: panel, drawing }));
      }
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

/** The files of a figure's art, each read once. */
class Drawings {
  readonly #byFile = new Map<string, { readonly drawing: CleanDrawing; readonly text: string }>();
  #bytes = 0;
  #points = 0;

  /** @returns what is printed of it, and its text where it is an SVG file */
  read(file: string, refuse: Refuse): { readonly drawing: CleanDrawing; readonly text: string } {
    const known = this.#byFile.get(file);
    if (known !== undefined) return known;
    const read = /\.png$/i.test(file) ? this.#picture(file, refuse) : this.#shapes(file, refuse);
    this.#byFile.set(file, read);
    return read;
  }

  #picture(file: string, refuse: Refuse) {
    const drawing = cleanPicture(readBytes(file, MOST_PNG_BYTES, refuse));
    if (drawing.picture !== null) this.#points += pointsOf(drawing.picture);
    if (this.#points > MOST_POINTS_OF_ALL)
      throw new PathFault(
        'a picture too large beside the others',
        `keep all pictures together under ${MOST_POINTS_OF_ALL} points`,
      );
    return { drawing, text: '' };
  }

  #shapes(file: string, refuse: Refuse) {
    const text = readText(file, MOST_SVG_BYTES, refuse);
    this.#bytes += Buffer.byteLength(text);
    if (this.#bytes > MOST_BYTES_OF_ALL)
      throw new PathFault(
        'a drawing too large beside the others',
        `keep all drawings together under ${MOST_BYTES_OF_ALL} bytes`,
      );
    return { drawing: cleanDrawing(text), text };
  }
}
