import { withOutlines } from '../figure/outlines/put-in.js';
import { readFigure } from '../figure/read.js';
import { valueAt } from '../figure/text/check.js';
import { InputError } from '../figure/text/input-error.js';
import { parseFigure } from '../figure/text/source.js';
import { pageArtOf } from '../report/page-art.js';
import type { Drawings } from './messages.js';

type Outline = NonNullable<Drawings['outlines']>[string];

/** The drawings that a figure file names, each read, for a page that can't read files. The file is as the text says. */
export function drawingsFor(path: string, text: string): Drawings {
  const outlines: Record<string, Outline> = {};
  try {
    const written = parseFigure(text, path);
    withOutlines(written.data, (at, outline) => {
      outlines[JSON.stringify(outline)] = readOne(path, at);
      return null;
    });
    return { outlines, art: pageArtOf(written).art };
  } catch (error) {
    // A text that cannot be read yet names no drawings.
    if (!(error instanceof InputError)) throw error;
  }
  return { outlines };
}

function readOne(path: string, at: readonly (string | number)[]): Outline {
  try {
    return { outline: valueAt(readFigure(path), at) ?? null };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { fault: error.message };
  }
}
