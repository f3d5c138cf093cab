import type { Place } from './place.js';
import type { MotionSent } from './sent.js';

/** A click this near to a crease is meant for the crease, mm. */
const NEAR = 5;

/** What was clicked on a panel: the crease that is near, else the panel. */
export function placeAt(
  { panels, creases }: MotionSent,
  panel: string,
  [x, y]: readonly [number, number],
): Place {
  const k = panels.findIndex(({ name }) => name === panel);
  let best: { name: string; along: number; far: number } | null = null;
  for (const { name, between, lines } of creases)
    for (const [i, at] of between.entries()) {
      if (at !== k) continue;
      const { x0, y0, x1, y1 } = lines[i];
      const [dx, dy] = [x1 - x0, y1 - y0];
      const along = Math.min(1, Math.max(0, ((x - x0) * dx + (y - y0) * dy) / (dx * dx + dy * dy || 1)));
      const far = Math.hypot(x - x0 - along * dx, y - y0 - along * dy);
      if (far < NEAR && (best === null || far < best.far))
        best = { name, along: along * Math.hypot(dx, dy), far };
    }
  return best === null
    ? { kind: 'panel', name: panel, along: x, up: (panels[k]?.up ?? 1) * y }
    : { kind: 'crease', name: best.name, along: best.along };
}
