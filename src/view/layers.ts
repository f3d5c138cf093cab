import { type Assembly, isPage } from '../motion/assembly.js';

/** Where the card of a panel lies across its own plane, mm: from `low` to `high` along its normal. */
export interface Layer {
  readonly low: number;
  readonly high: number;
}

/**
 * Gives the panels thickness, for looking at. The kernel moves planes; here the pages lie below theirs, so that the
 * figure stands on them, a panel lies around its own, and what is glued on a panel lies on top of it.
 */
export function layersOf({ panels }: Pick<Assembly, 'panels'>): Layer[] {
  const top = new Map<number, number>();
  return panels.map(({ thickness, body }, k): Layer => {
    const below = top.get(body);
    const low = below ?? (isPage(k) ? -thickness : -thickness / 2);
    // Glued panels of one body need not lie over one another; a place each keeps their faces apart all the same.
    top.set(body, low + thickness);
    return { low, high: low + thickness };
  });
}
