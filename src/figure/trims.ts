import * as z from 'zod';
import { LONGEST } from '../parts/fields.js';
import type { Trim } from '../parts/trim.js';
import { checked } from './text/check.js';
import type { FigureSource } from './text/source.js';

const mm = () => z.number().min(-LONGEST).max(LONGEST);

const trims = z
  .array(
    z.strictObject({
      panel: z.string({ error: 'the name of a panel' }),
      region: z
        .array(z.tuple([mm(), mm()], { error: 'a point [x, y] in mm' }))
        .min(3)
        .max(200),
    }),
  )
  .max(200)
  .prefault([]);

/** Reads `trims`. Names of panels are checked where the figure is first built. */
export const readTrims = (source: FigureSource): Trim[] => checked(source, ['trims'], trims);
