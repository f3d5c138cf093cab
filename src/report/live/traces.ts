import type { Want } from '../../figure/wants.js';
import { worldPoint } from '../../motion/pose.js';
import type { Motion } from '../../view/motion.js';

/** The path that a marked point leaves as the page moves. */
export interface Trace {
  /** What the maker wants of it. */
  readonly want: string;
  readonly panel: number;
  /** In the panel's own plane, mm. */
  readonly point: readonly [number, number];
  /** x, y, z of every frame, from open on, mm. */
  readonly path: Float32Array;
}

/**
 * The paths of what the wants mark: the point of a `travel` or `rise`, and the tip of a line that shall turn (the corner
 * of its panel that lies farthest along it). One trace to a point, whichever wants ask for it.
 */
export function tracesOf(motion: Motion, wants: readonly Want[]): Trace[] {
  const traces = new Map<string, Trace>();
  for (const want of wants)
    for (const { panel, point } of marked(motion, want)) {
      const key = `${panel} ${point}`;
      if (!traces.has(key))
        traces.set(key, { want: want.name, panel, point, path: pathOf(motion, panel, point) });
    }
  return [...traces.values()];
}

interface Marked {
  readonly panel: number;
  readonly point: readonly [number, number];
}

function marked({ assembly }: Motion, want: Want): Marked[] {
  const panels = 'panels' in want ? want.panels : 'panel' in want ? [want.panel] : [];
  return panels.flatMap((name): Marked[] => {
    const k = assembly.panels.findIndex((panel) => panel.name === name);
    if (k < 0) return [];
    const { outline, up } = assembly.panels[k];
    if ('point' in want && want.point !== undefined)
      return [{ panel: k, point: [want.point[0], up * want.point[1]] }];
    if (!('line' in want) || want.line === undefined) return [];
    const angle = (want.line * Math.PI) / 180;
    return [{ panel: k, point: tip(outline, Math.cos(angle), up * Math.sin(angle)) }];
  });
}

function tip(outline: Float64Array, dx: number, dy: number): [number, number] {
  let best = 0;
  for (let i = 2; i < outline.length; i += 2)
    if (outline[i] * dx + outline[i + 1] * dy > outline[best] * dx + outline[best + 1] * dy) best = i;
  return [outline[best], outline[best + 1]];
}

function pathOf({ opening }: Motion, panel: number, [x, y]: readonly [number, number]): Float32Array {
  const path = new Float32Array(3 * opening.count);
  const at = new Float64Array(3);
  for (let frame = 0; frame < opening.count; frame++) {
    worldPoint(opening.frame(frame), panel, x, y, at);
    path.set(at, 3 * frame);
  }
  return path;
}
