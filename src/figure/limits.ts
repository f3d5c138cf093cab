import * as z from 'zod';
import { checked } from './text/check.js';
import type { FigureSource } from './text/source.js';

const most = (usual: number) => z.number().min(0).max(1000).prefault(usual);

const limits = z
  .strictObject({
    /** Deepest catch that may count, mm. */
    catch: most(0),
    /** A contact whose push is less only presses, mm: about one card. */
    press: most(0.3),
    /** How far card may stick out past the page's edges when shut, mm. */
    overhang: most(0),
    /** Page angle below which the pages must cover the card but for that much, degrees; 0: when shut. */
    coveredBelow: z.number().min(0).max(180).prefault(0),
    /** How far card may leave the wedge between the pages, mm. */
    outside: most(0.3),
    /** Thickest pile of card between the pages when shut, mm. */
    pile: most(3),
    /** How much of any one glue area may lie off card, on something else, or where something moves, mm². */
    glue: z.number().min(0).max(100_000).prefault(25),
    /** How far card can be forced before it binds, mm. */
    give: most(0.5),
    /** How far the two parts on a hub may tilt against each other, degrees. */
    tilt: z.number().min(0).max(90).prefault(20),
    /** How far a limb may turn at once, where it passes a dead point, degrees. */
    jump: z.number().min(0).max(180).prefault(0),
    /** How far card may stand off the left page when shut, mm, its thickness left out. */
    residue: most(0.3),
    /** Whether it must lie flat when open, must stand, or may do either. */
    flatWhenOpen: z
      .union([z.enum(['yes', 'no', 'any']), z.boolean().transform((flat) => (flat ? 'yes' : 'no'))], {
        error: 'yes, no or any',
      })
      .prefault('any'),
  })
  .prefault({});

/** What a figure must keep to. Lengths in mm. */
export type Limits = Readonly<z.output<typeof limits>>;

/** Reads `limits`; each has its default. */
export const readLimits = (source: FigureSource): Limits => checked(source, ['limits'], limits);
