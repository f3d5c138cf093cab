import type { Goal } from '../figure/wants.js';
import { cardArea } from '../geometry/polygon.js';
import type { Assembly } from '../motion/assembly.js';
import type { Scorecard } from '../score/scorecard.js';
import { MOST_CUT } from '../score/trims/most-cut.js';

/** Card that a panel loses by a remedy. */
export interface CardLoss {
  readonly panel: string;
  /** mm². */
  readonly area: number;
  /** Per cent of the panel. */
  readonly share: number;
}

/** A want that comes out worse by a remedy: by its name, with its value before and after. */
export interface WantLoss {
  readonly name: string;
  readonly unit: 'mm' | 'degrees';
  readonly before: number;
  readonly after: number | null;
}

/** Less than this, in mm or degrees, is no change that a maker would see. */
const SEEN = 0.05;

/**
 * Panels that are so much smaller after a remedy that it has to be said, the greatest loss first.
 * @param told changes of a panel's size up to this share, per cent, go without saying
 */
export function cardLosses(before: Assembly, after: Assembly, told = MOST_CUT): CardLoss[] {
  const were = new Map(before.panels.map((panel) => [panel.name, panel]));
  return after.panels
    .flatMap((panel): CardLoss[] => {
      const was = were.get(panel.name);
      if (was === undefined || panel.role === 'tab') return [];
      const whole = cardArea(was);
      const area = whole - cardArea(panel);
      return [{ panel: panel.name, area, share: (100 * area) / whole }];
    })
    .filter(({ share }) => share > told)
    .sort((a, b) => b.share - a.share);
}

/** Wants that were measured before, and come out worse. */
export function wantLosses(goals: readonly Goal[], before: Scorecard, after: Scorecard): WantLoss[] {
  return after.wants.flatMap(({ name, unit, value }, i): WantLoss[] => {
    const was = before.wants[i].value;
    if (was === null) return [];
    const worse = value === null || fallsShort(value, goals[i]) > fallsShort(was, goals[i]) + SEEN;
    return worse ? [{ name, unit, before: was, after: value }] : [];
  });
}

/** How far a value lies on the worse side, mm or degrees: from the target, or beyond nothing where more or less is better. */
function fallsShort(value: number, { least, most, target }: Goal): number {
  const middle = target ?? (least !== undefined && most !== undefined ? (least + most) / 2 : null);
  if (middle !== null) return Math.abs(value - middle);
  return least !== undefined ? -value : value;
}
