import { readArt } from '../figure/art.js';
import { InputError } from '../figure/text/input-error.js';
import type { FigureSource } from '../figure/text/source.js';
import type { CleanDrawing } from '../sheets/art/clean-drawing.js';
import { readPanelArt } from '../sheets/art/read-art.js';
import { NO_ART, type PageArt } from './live/data.js';

/** Most that drawings take in a page, characters. */
const MOST = 4_000_000;

/**
 * A figure's art for a page: cleaned as for the sheets, each drawing once. What can't be read is told and not shown: a page is
 * not to fail by it.
 */
export function pageArtOf(source: FigureSource): {
  readonly art: PageArt;
  readonly notes: readonly string[];
} {
  try {
    const read = readPanelArt(source, readArt(source));
    const drawings = [...new Set(read.art.map(({ drawing }) => drawing))];
    const art: PageArt = {
      drawings: drawings.map(packed),
      places: read.art.map(({ drawing, ...place }) => ({ ...place, drawing: drawings.indexOf(drawing) })),
    };
    if (JSON.stringify(art).length > MOST)
      return { art: NO_ART, notes: ['Its drawings are too large to be shown in this page.'] };
    return { art, notes: read.notes };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { art: NO_ART, notes: [error.message] };
  }
}

function packed({ width, height, strokes, picture }: CleanDrawing): PageArt['drawings'][number] {
  return {
    width,
    height,
    strokes,
    picture: picture === null ? null : Buffer.from(picture).toString('base64'),
  };
}
