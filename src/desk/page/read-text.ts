import { withOutlines } from '../../figure/outlines/put-in.js';
import { faultAt } from '../../figure/text/check.js';
import { type FigureSource, parseFigure } from '../../figure/text/source.js';
import type { Drawings } from '../messages.js';

/** Reads a figure file in a page, with outlines from drawings as the desk has read them. @throws InputError */
export function readText(text: string, file: string, drawings: Drawings): FigureSource {
  const source = parseFigure(text, file);
  const data = withOutlines(source.data, (at, written) => {
    const drawing = drawings.outlines?.[JSON.stringify(written)];
    if (drawing !== undefined && 'outline' in drawing) return drawing.outline;
    throw faultAt(source, at, drawing?.fault ?? 'wait until the drawing has been read', 'a drawing');
  });
  return { ...source, data };
}
