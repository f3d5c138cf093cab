import { GREATEST } from '../figure/dim-file.js';

/** How far a number may go. */
export interface Bounds {
  readonly low: number;
  readonly high: number;
}

/**
 * A sensible range around a number of a figure that gives none, inside what its field allows.
 *
 * - A length goes from a sixth of itself to two and a half times itself and 20 mm more: a part that is out of all
 *   proportion still comes back.
 * - A place, which may be negative, goes 80 mm either way, or as far as it is from zero.
 * - An angle between two creases goes 60° either way; one that may be anything goes 150°.
 * - A number that the file leaves out is the usual one: it goes to half and to double at most.
 * @param allowed what the field allows; of a dim nothing is known but what any dim may be
 */
export function sensibleRange(
  now: number,
  unit: 'mm' | 'degrees' | '',
  allowed: { readonly least?: number; readonly most?: number },
  isWritten = true,
): Bounds {
  const { least = -GREATEST, most = GREATEST } = allowed;
  const within = (low: number, high: number): Bounds => ({
    low: Math.min(now, Math.max(least, low)),
    high: Math.max(now, Math.min(most, high)),
  });
  if (!isWritten && now > 0) return within(now / 2, 2 * now);
  if (unit === 'degrees') {
    const turn = least >= 0 && most <= 180 ? 60 : 150;
    return within(now - turn, now + turn);
  }
  // A dim above zero may be a length: its sign is kept.
  if (least >= 0 || (allowed.least === undefined && now > 0)) return within(now / 6, 2.5 * now + 20);
  const way = Math.max(80, Math.abs(now));
  return within(now - way, now + way);
}
