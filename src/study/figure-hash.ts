import { createHash } from 'node:crypto';
import type { FigureSource } from '../figure/text/source.js';

/** SHA-256 of a figure as it was understood: remarks and blanks in the file don't count, drawings do. */
export function figureHash(source: FigureSource): string {
  return createHash('sha256').update(JSON.stringify(source.data)).digest('hex');
}
