import { expect, test } from 'vitest';
import { assemble, axisOf, pointOf, posesAt, wantOf } from '../support/assemble.js';

/** The panel of a fold over the gutter whose lines that are level with a page run askew to it: convex. */
const PANEL = [
  [0, 0],
  [40, 0],
  [52, 38],
  [14, 60],
] as const;
const sail = () =>
  assemble([
    { name: 'v', kind: 'v-fold', at: 60, glue: [50, 70], panels: [80, 60], feet: [40, 40], ridge: 50 },
    { name: 'sail', kind: 'glued-piece', on: 'v left', at: [0, 0], outline: PANEL },
  ]);

// Levels every 0.005 mm, laid across the panel in space: what riseOfPanel finds at ends and crossings of strips.
test.each([140, 100, 70])(
  'the rise of a panel is that of the best of all its level lines, at %i°',
  (pageAngle) => {
    const assembly = sail();
    const poses = posesAt(assembly, pageAngle);
    const normal = axisOf(assembly, poses, 'right page', 2);
    const heights = (x: number, y: number) => {
      const place = pointOf(assembly, poses, 'sail', x, y);
      return [place[2], place.reduce((sum, c, i) => sum + c * normal[i], 0)];
    };
    let best = Number.NEGATIVE_INFINITY;
    for (const page of [0, 1]) {
      const over = PANEL.map(([x, y]) => heights(x, y)[page]);
      for (let level = Math.min(...over) + 1e-6; level < Math.max(...over); level += 0.005) {
        const ends = PANEL.flatMap(([x, y], i) => {
          const j = (i + 1) % PANEL.length;
          const t = (level - over[i]) / (over[j] - over[i]);
          return t >= 0 && t < 1 ? [[x + t * (PANEL[j][0] - x), y + t * (PANEL[j][1] - y)]] : [];
        });
        if (ends.length !== 2) continue;
        const [[ax, ay], [bx, by]] = ends;
        const there = heights((ax + bx) / 2, (ay + by) / 2)[1 - page];
        const lacks = Math.max(0, level - there) + Math.max(0, 5 - Math.hypot(bx - ax, by - ay));
        best = Math.max(best, Math.min(level, there) - 30 * lacks);
      }
    }
    const found = wantOf(
      { kind: 'rise', unit: 'mm', panel: 'sail', from: pageAngle, to: pageAngle },
      assembly,
    );
    if ('unknown' in found) throw new Error(found.unknown.because);
    // From one sampled level to the next it may change by 0.15 mm where it counts steeply.
    expect(Math.abs(found.value - best)).toBeLessThan(0.15);
  },
);
