import { POSE } from '../../motion/pose.js';
import type { Bond } from '../nets/bonds.js';
import type { Frames } from '../nets/fold-sense.js';

/** Panels that turn less than this against one another, over the whole opening, close on nothing, degrees. */
const CLOSES = 60;

/**
 * The tab of a fold that is glued last, by closing on it what it is glued to: it then finds its own place, and the
 * fold shuts however the others were glued. (Common practice, no source.) Null where a part has but one tab, or where
 * what its tabs are glued to does not fold between them.
 */
export function lastClosedOn(frames: Frames, bonds: readonly Bond[]): Bond | null {
  const tabs = bonds.filter(({ of, slit }) => of === 'tab' && slit === null);
  const under = ({ receiver: { net, area } }: Bond) => net.areas[area].panel;
  for (const last of tabs.toReversed())
    if (
      tabs.some(
        (other) =>
          other.giver.net === last.giver.net && turnBetween(frames, under(other), under(last)) > CLOSES,
      )
    )
      return last;
  return null;
}

/** How far two panels turn against each other over the opening, degrees. */
function turnBetween({ poses }: Frames, a: number, b: number): number {
  const angles = poses.map((frame) => {
    const dot = [2, 6, 10].reduce((sum, k) => sum + frame[a * POSE + k] * frame[b * POSE + k], 0);
    return (Math.acos(Math.min(1, Math.max(-1, dot))) * 180) / Math.PI;
  });
  return Math.max(...angles) - Math.min(...angles);
}
