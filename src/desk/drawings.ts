import type { DrawnOutline } from '../figure/outlines/drawn-outline.js';
import { withOutlines } from '../figure/outlines/put-in.js';
import { outlineReader } from '../figure/read.js';
import { InputError } from '../figure/text/input-error.js';
import { parseFigure } from '../figure/text/source.js';
import { pageArtOf } from '../report/page-art.js';
import type { Drawings } from './messages.js';

type Outline = NonNullable<Drawings['outlines']>[string];

/** The drawings that a figure file names, each read for itself, for a page that can't read files. The file is as the text says. */
export function drawingsFor(path: string, text: string): Drawings {
  const outlines: Record<string, Outline> = {};
  try {
    const written = parseFigure(text, path);
    const outline = outlineReader(written);
    withOutlines(written.data, (at, drawn) => {
      outlines[JSON.stringify(drawn)] = triedOutline(() => outline(at));
      return null;
    });
    return { outlines, art: pageArtOf(written).art };
  } catch (error) {
    // A text that cannot be read yet names no drawings.
    if (!(error instanceof InputError)) throw error;
  }
  return { outlines };
}

function triedOutline(read: () => DrawnOutline): Outline {
  try {
    return { outline: { ...read() } };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { fault: error.message };
  }
}
