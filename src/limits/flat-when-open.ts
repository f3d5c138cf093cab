import * as z from 'zod';
import { ASKED_OF_THE_DRAWING, declareLimit, found } from './limit.js';

/** Card that stands no higher than this on the open pages lies flat, mm. */
const FLAT_OPEN = 0.3;

/** A figure may be asked to lie flat when open, or to stand. */
export const flatWhenOpen = declareLimit({
  name: 'flat when open',
  unit: 'mm',
  // That it lies flat is asked of the drawing: creases lift card that is cut by hand by more than its errors do.
  givesWay: ASKED_OF_THE_DRAWING,
  scale: 1,
  fields: {
    /** Whether it must lie flat when open, must stand, or may do either. */
    flatWhenOpen: z
      .union([z.enum(['yes', 'no', 'any']), z.boolean().transform((flat) => (flat ? 'yes' : 'no'))], {
        error: 'yes, no or any',
      })
      .prefault('any'),
  },
  applies: (given) => given.flatWhenOpen !== 'any',
  bound: (given) => (given.flatWhenOpen === 'yes' ? { most: FLAT_OPEN } : { least: FLAT_OPEN }),
  measure: ({ openResidue, openStanding }, given) => ({
    value: openResidue,
    finding:
      given.flatWhenOpen === 'yes'
        ? found('stands off', [openStanding], 180)
        : found('does not stand', [], 180),
  }),
});
