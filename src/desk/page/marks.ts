import type { Marks } from './drag.js';
import type { Model } from './model.js';

/** What a point that is dragged on a panel may snap to: corners of its card, places that lie there, and its creases. */
export function marksOn(model: Model, name: string): Marks {
  const motion = model.motion.value;
  const k = motion?.panels.findIndex((panel) => panel.name === name) ?? -1;
  if (motion === null || k < 0) return { points: [], creases: [] };
  const rings = [motion.panels[k].outline, ...motion.panels[k].holes];
  const corners = rings.flatMap((ring) =>
    Array.from({ length: ring.length / 2 }, (_, i) => ({
      name: 'a corner',
      at: [ring[2 * i], ring[2 * i + 1]] as const,
    })),
  );
  const places = (model.rest.value?.places ?? []).filter(({ panel }) => panel === name);
  return {
    points: [...places, ...corners],
    creases: motion.creases.flatMap(({ name: crease, between, lines }) =>
      between.flatMap((at, i) => (at === k ? [{ name: crease, line: lines[i] }] : [])),
    ),
  };
}
