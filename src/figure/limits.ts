import { type Limits, limitFields } from '../limits/index.js';
import { checked } from './text/check.js';
import type { FigureSource } from './text/source.js';

/** Reads `limits`; each has its default. */
export const readLimits = (source: FigureSource): Limits => checked(source, ['limits'], limitFields);
