import * as z from 'zod';
import { isoSheet, type SheetSize } from './iso216.js';
import { checked, faultAt, valueAt } from './text/check.js';
import type { FigureSource } from './text/source.js';

/** One leaf of the base, mm: width from gutter to outer edge, height along the gutter. */
export type Page = SheetSize;

const side = () => z.number().min(10).max(2000);
const size = z.strictObject({ width: side(), height: side() });

/** Reads `page`: fields width and height in mm, or the name of an ISO 216 sheet. */
export function readPage(source: FigureSource): Page {
  const written = valueAt(source, ['page']);
  const remedy = "give { width: …, height: … } in mm for one leaf, or a sheet such as 'A5 portrait'";
  if (typeof written === 'string') {
    const sheet = isoSheet(written);
    if (sheet === undefined) throw faultAt(source, ['page'], remedy);
    return sheet;
  }
  if (written === undefined || written === null || typeof written !== 'object' || Array.isArray(written))
    throw faultAt(source, ['page'], remedy);
  return checked(source, ['page'], size);
}

/** The page angles to cover, degrees. */
export interface PageSteps {
  readonly from: 180;
  readonly to: 0;
  /** At most 2°, so that nothing is stepped over. */
  readonly step: number;
}

const opening = z
  .strictObject({
    from: z.literal(180).prefault(180),
    to: z.literal(0).prefault(0),
    step: z
      .number()
      .min(0.1)
      .max(2)
      .refine((step) => Math.abs(Math.round(180 / step) - 180 / step) < 1e-9, {
        error: 'a step that divides 180, such as 2, 1 or 0.5',
      })
      .prefault(2),
  })
  .prefault({});

/** Reads `opening`; 180° to 0° in steps of 2° if it is not given. */
export const readPageSteps = (source: FigureSource): PageSteps => checked(source, ['opening'], opening);
