import * as z from 'zod';
import { checked } from './text/check.js';
import type { FigureSource } from './text/source.js';

/** The face of a piece that is printed: what a reader at the foot of the open spread sees of it, or the other. */
export type Face = 'front' | 'back';

const faces = z.record(z.string(), z.enum(['front', 'back'], { error: 'front or back' })).prefault({});

/** Reads `faces`. Names of pieces are checked where the figure is first built. */
export const readFaces = (source: FigureSource): ReadonlyMap<string, Face> =>
  new Map(Object.entries(checked(source, ['faces'], faces)));
