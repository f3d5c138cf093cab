import { withOutlines } from '../figure/outlines/put-in.js';
import { readFigure } from '../figure/read.js';
import { valueAt } from '../figure/text/check.js';
import { InputError } from '../figure/text/input-error.js';
import { parseFigure } from '../figure/text/source.js';
import type { Drawings } from './messages.js';

/** The drawings that a figure file names, each read, for a page that can't read files. The file is as the text says. */
export function drawingsFor(path: string, text: string): Drawings {
  const found: Record<string, Drawings[string]> = {};
  try {
    const written = parseFigure(text, path);
    withOutlines(written.data, (at, outline) => {
      found[JSON.stringify(outline)] = readOne(path, at);
      return null;
    });
  } catch (error) {
    // A text that cannot be read yet names no drawings.
    if (!(error instanceof InputError)) throw error;
  }
  return found;
}

function readOne(path: string, at: readonly (string | number)[]): Drawings[string] {
  try {
    return { outline: valueAt(readFigure(path), at) ?? null };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { fault: error.message };
  }
}
