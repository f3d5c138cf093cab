import { describe, expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { signedArea } from '../../src/geometry/polygon.js';
import { Scorer } from '../../src/score/scorer.js';
import { assemble } from '../support/assemble.js';

const figureOf = (parts: string) => compileFigure(parseFigure(`page: A5\nparts:\n${parts}`, 'tabs.yaml'));
const tabOf = (assembly: ReturnType<typeof assemble>, name: string) =>
  assembly.panels[assembly.panelNamed(name, '')].outline;
const xs = (ring: Float64Array) => Array.from(ring).filter((_, i) => i % 2 === 0);

describe('a glue tab is cut back by itself', () => {
  test.each([45, 44.99, 40, 30, 20])('over the gutter: a plain V-fold glued at %f° works', (g) => {
    const figure = figureOf(
      `  - { name: v, kind: v-fold, at: 60, glue: [${g}, ${g}], panels: [${g + 10}, ${g + 10}], feet: [50, 50], ridge: 40 }`,
    );
    const card = new Scorer(figure).score(figure.start);
    expect(card.limits.filter(({ met }) => !met)).toEqual([]);
    expect(card.flat.overhang).toBe(0);
  });

  test.each([
    [45, -1e-9],
    [40, 0.98],
    [30, 1.99],
    [20, 1.99],
  ])(
    'over the foot of another V-fold: one that stands on it, glued at %f°, has glue that holds',
    (g, clear) => {
      const figure = figureOf(
        `  - { name: body, kind: v-fold, at: 60, glue: 65, panels: 75, feet: 60, ridge: 40 }
  - { name: wing, kind: v-fold, on: body left foot outer, at: 16, glue: ${g}, panels: ${g + 10}, feet: 30, ridge: 20 }
  - { name: flap, kind: parallel-fold, on: body right foot outer, at: 16, length: 30, glue: 5, widths: 7 }`,
      );
      const assembly = figure.build(figure.start);
      // As far from the crease that it stands on as it would reach over it, up to 2 mm.
      for (const name of ['wing left tab', 'wing right tab', 'flap left tab', 'flap right tab']) {
        const ring = tabOf(assembly, name);
        const { lines, between } = assembly.creaseNamed(
          name.startsWith('wing') ? 'body left foot outer' : 'body right foot outer',
          '',
        );
        const { body } = assembly.panels[assembly.panelNamed(name, '')];
        const { x0, y0, x1, y1 } = lines[between.findIndex((k) => assembly.panels[k].body === body)];
        const long = Math.hypot(x1 - x0, y1 - y0);
        const away = Array.from({ length: ring.length / 2 }, (_, i) =>
          Math.abs(((x1 - x0) * (ring[2 * i + 1] - y0) - (y1 - y0) * (ring[2 * i] - x0)) / long),
        );
        expect(Math.min(...away), name).toBeGreaterThan(name.startsWith('wing') ? clear : 1.99);
        expect(signedArea(ring), name).toBeGreaterThan(25);
      }
      const { limits } = new Scorer(figure).score(figure.start);
      expect(limits.filter(({ name, met }) => name.startsWith('glue') && !met)).toEqual([]);
    },
  );

  test('over the head of the page', () => {
    const assembly = assemble([
      {
        name: 'tent',
        kind: 'parallel-fold',
        at: 150,
        length: 60,
        glue: [5, 5],
        widths: [10, 10],
        tab: { width: 8, side: 'inner' },
      },
    ]);
    expect(Math.max(...xs(tabOf(assembly, 'tent left tab')))).toBeLessThanOrEqual(0);
    expect(Math.min(...xs(tabOf(assembly, 'tent right tab')))).toBeGreaterThanOrEqual(0);
  });

  test('at a hole, and at the edge of a plate; one that lies on card stays as it is', () => {
    const posts = [60, 100].map((at, i) => ({
      name: `post ${i}`,
      kind: 'v-fold',
      at,
      glue: [90, 45],
      panels: [45, 90],
      feet: [60, 30],
      ridge: 40,
    }));
    const supports = [0, 1].map((i) => ({
      panel: `post ${i} left`,
      line: [
        [30, 28],
        [50, 28],
      ],
    }));
    const plate = (outline: unknown) => ({ name: 'plate', kind: 'plate', supports, outline });
    const area = (outline: unknown, tab: number) =>
      signedArea(tabOf(assemble([...posts, plate(outline)] as never), `plate tab ${tab}`));
    const whole = [
      [-10, -10],
      [30, -10],
      [30, 50],
      [-10, 50],
    ];
    const all = area({ polygon: whole }, 1);
    expect(all).toBeCloseTo(8 * 12, 6);
    const narrow = [
      [-10, -10],
      [30, -10],
      [30, 5],
      [25, 5],
      [25, 50],
      [-10, 50],
    ];
    expect(area({ polygon: narrow }, 1)).toBeCloseTo(all, 6);
    const hole = [
      [-5, 5],
      [25, 5],
      [25, 15],
      [-5, 15],
    ];
    const short = area({ polygon: whole, holes: [hole] }, 1);
    expect(short).toBeCloseTo(5 * 15, 1);
  });
});
