import * as z from 'zod';
import { checked } from './text/check.js';
import type { FigureSource } from './text/source.js';

const mm = () => z.number().min(-10_000).max(10_000);

const art = z
  .array(
    z.strictObject({
      on: z
        .union([z.string(), z.array(z.string()).min(1).max(20)], {
          error: 'the name of a panel or of a piece, or a list of them',
        })
        .transform((on) => [on].flat()),
      drawing: z.string({
        error: "the name of an SVG or PNG file beside the figure file, such as 'man.svg'",
      }),
      path: z.string({ error: 'the id of a path in that drawing' }).optional(),
      zero: z
        .tuple([mm(), mm()], { error: "a point [x, y] in mm from the drawing's top left corner" })
        .optional(),
      turn: z.number().min(-360).max(360).prefault(0),
      scale: z
        .union([z.number().min(0.01).max(100), z.literal('fit')], { error: "a number, or 'fit'" })
        .prefault(1),
    }),
  )
  .max(50)
  .prefault([]);

/** A drawing to be printed on the printed face of panels, or of pieces as they lie flat. */
export interface Art {
  /** Each a panel, or a piece: then all its panels. */
  readonly on: readonly string[];
  /** An SVG or PNG file in the folder of the figure file, or below. */
  readonly drawing: string;
  /** A path in it whose lower left corner comes to the panel's (0, 0): that from which the panel's outline is. */
  readonly path?: string | undefined;
  /** The point of the drawing, in mm from its top left corner, that comes to the panel's (0, 0); else middle on middle. */
  readonly zero?: readonly [number, number] | undefined;
  /** Degrees counter-clockwise, seen on the printed face. */
  readonly turn: number;
  /** Or as large as covers the panel. */
  readonly scale: number | 'fit';
}

/** Reads `art`. Names of panels are checked where the figure is first built; drawings are read with the sheets. */
export const readArt = (source: FigureSource): Art[] => checked(source, ['art'], art);
