import { cheaper } from './change.js';
import type { OpenedFigure } from './opened.js';
import type { Attempt } from './track.js';

/** Those that came nearest, no two with the same settings changed. */
export function mostPromising(
  attempts: readonly Attempt[],
  { settings }: OpenedFigure,
  width: number,
): Attempt[] {
  const taken = new Set<string>();
  return [...attempts]
    .sort((a, b) => a.badness - b.badness || cheaper(a.cost, b.cost))
    .filter(({ done }) => {
      const key = done.flatMap(({ move }) => move.steps.map(({ setting }) => settings[setting].name)).join();
      if (taken.has(key)) return false;
      taken.add(key);
      return true;
    })
    .slice(0, width);
}
