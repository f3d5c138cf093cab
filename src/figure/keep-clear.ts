import * as z from 'zod';
import { LONGEST } from '../parts/fields.js';
import { label } from '../parts/label.js';
import { checked, faultAt } from './text/check.js';
import type { FigureSource } from './text/source.js';

const mm = () => z.number().min(-LONGEST).max(LONGEST);
const corner = () => z.tuple([mm(), mm(), mm()], { error: 'a corner [x, y, z] in mm' });

const boxes = z
  .array(
    z.strictObject({
      name: label(),
      on: z.enum(['left page', 'right page']).prefault('left page'),
      from: corner(),
      to: corner(),
    }),
  )
  .max(50)
  .prefault([]);

/** A space that something else takes up: a box that stands on a page and moves with it. */
export interface ClearSpace {
  readonly name: string;
  readonly on: 'left page' | 'right page';
  /** Least and greatest corner in the frame of its page: the axes of the world with the book open flat, mm. */
  readonly least: readonly [number, number, number];
  readonly most: readonly [number, number, number];
}

/** Reads `keepClear`. */
export function readKeepClear(source: FigureSource): ClearSpace[] {
  return checked(source, ['keepClear'], boxes).map(({ name, on, from, to }, i) => {
    const least = from.map((v, axis) => Math.min(v, to[axis])) as [number, number, number];
    const most = from.map((v, axis) => Math.max(v, to[axis])) as [number, number, number];
    if (least.some((v, axis) => v === most[axis]))
      throw faultAt(source, ['keepClear', i, 'to'], 'give a corner that differs from `from` in x, y and z');
    if (most[2] <= 0)
      throw faultAt(source, ['keepClear', i, 'to'], 'give a z above 0', 'a box behind its page');
    // No card comes behind the page, and a space that reached there would never have room beside the other page.
    least[2] = Math.max(0, least[2]);
    return { name, on, least, most };
  });
}
