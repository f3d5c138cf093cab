import * as z from 'zod';
import { checked } from './text/check.js';
import type { FigureSource } from './text/source.js';

const mm = () => z.number().min(-10_000).max(10_000);

const art = z
  .array(
    z.strictObject({
      on: z.string({ error: 'the name of a panel' }),
      drawing: z.string({ error: "the name of an SVG file beside the figure file, such as 'man.svg'" }),
      zero: z
        .tuple([mm(), mm()], { error: "a point [x, y] in mm from the drawing's top left corner" })
        .optional(),
      turn: z.number().min(-360).max(360).prefault(0),
      scale: z.number().min(0.01).max(100).prefault(1),
    }),
  )
  .max(50)
  .prefault([]);

/** A drawing to be printed on the printed face of a panel. */
export interface Art {
  readonly on: string;
  /** An SVG file in the folder of the figure file, or below. */
  readonly drawing: string;
  /** The point of the drawing, in mm from its top left corner, that comes to the panel's (0, 0); else middle on middle. */
  readonly zero?: readonly [number, number] | undefined;
  /** Degrees counter-clockwise, seen on the printed face. */
  readonly turn: number;
  readonly scale: number;
}

/** Reads `art`. Names of panels are checked where the figure is first built; drawings are read with the sheets. */
export const readArt = (source: FigureSource): Art[] => checked(source, ['art'], art);
