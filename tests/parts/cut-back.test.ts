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
