import * as z from 'zod';
import { checked } from '../figure/text/check.js';
import type { FigureSource } from '../figure/text/source.js';

/** Kinds of work by hand. */
export const WORKS = ['stroke', 'crease', 'glue', 'hub', 'pass'] as const;
export type Work = (typeof WORKS)[number];

/** What each takes, and costs. */
export interface Costs {
  /** Minutes for one of each kind. */
  readonly minutes: Readonly<Record<Work, number>>;
  /** In one currency; null where it is not told. */
  readonly prices: {
    readonly currency: string;
    readonly sheet: number | null;
    readonly glue: number | null;
    readonly hour: number | null;
  };
}

/** Minutes of somebody who does it often. (A guess to be replaced by one's own: no source.) */
const MINUTES: Readonly<Record<Work, number>> = { stroke: 0.15, crease: 0.3, glue: 1, hub: 2, pass: 0.5 };

const time = (otherwise: number) => z.number().min(0).max(1000).prefault(otherwise);
const price = () => z.number().min(0).max(1e6).optional();

const file = z.strictObject({
  minutes: z
    .strictObject({
      stroke: time(MINUTES.stroke),
      crease: time(MINUTES.crease),
      glue: time(MINUTES.glue),
      hub: time(MINUTES.hub),
      pass: time(MINUTES.pass),
    })
    .prefault({}),
  prices: z
    .strictObject({
      currency: z
        .string({ error: 'a short word' })
        .regex(/^[\p{L}\p{Sc}]{1,5}$/u, { error: 'a sign or a word of up to five letters, such as EUR' })
        .optional(),
      sheet: price(),
      glue: price(),
      hour: price(),
    })
    .prefault({}),
});

/**
 * Minutes and prices from a YAML file: `minutes` with any of stroke, crease, glue, hub, pass, and `prices` with currency,
 * sheet, glue (a joint) and hour. What is left out has its default; a price has none.
 * @throws InputError with its place
 */
export function costsFrom(source: FigureSource): Costs {
  const { minutes, prices } = checked(source, [], file, source.data ?? {});
  const { currency = '', sheet = null, glue = null, hour = null } = prices;
  return { minutes, prices: { currency, sheet, glue, hour } };
}

export const DEFAULT_COSTS: Costs = {
  minutes: MINUTES,
  prices: { currency: '', sheet: null, glue: null, hour: null },
};
