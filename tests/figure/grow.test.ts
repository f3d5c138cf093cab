import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { outsideOf } from '../../src/geometry/ring-distance.js';
import type { Assembly } from '../../src/motion/assembly.js';
import type { Scorecard } from '../../src/score/scorecard.js';
import { Scorer } from '../../src/score/scorer.js';

const figureOf = (text: string) => compileFigure(parseFigure(`page: A5\n${text}`, 'figure.yaml'));
const assemblyOf = (text: string): Assembly => {
  const figure = figureOf(text);
  return figure.build(figure.start);
};

const panelOf = (assembly: Assembly, name: string) => assembly.panels[assembly.panelNamed(name, '')];

/** The area of a ring by the shoelace formula, mm². */
function areaOf(ring: Float64Array): number {
  let twice = 0;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2)
    twice += ring[j] * ring[i + 1] - ring[i] * ring[j + 1];
  return Math.abs(twice) / 2;
}

/** A man 70 mm tall, drawn `broad` mm broad beside his ridge, with a counter-fold of so long diagonals. */
const man = (grow: string, { broad = 8, side = 16 as number | string, more = '', at = '30' } = {}) => `
dims: { up: { from: 10, to: 40, start: ${at} } }
parts:
  - name: man
    kind: v-fold
    at: 60
    glue: 60
    panels: 75
    feet: 30
    ridge: 70
    outlines:
      left: { polygon: [[0, 0], [30, 0], { on: ridge, at: [20, ${broad}] }, { on: ridge, at: [end, ${broad}] }, { on: ridge, at: end }]${grow} }
      right: { mirror: left${grow} }
  - { name: swing, kind: counter-fold, on: man ridge, at: up, diagonal: 40, side: ${side}, length: 20 }
${more}`;
const GROW = ', grow: yes';

describe('an outline that grows', () => {
  it('has card around a diagonal that would end beside it, as broad as its margin', () => {
    expect(() => assemblyOf(man(''))).toThrow('the end of its diagonal lies off the card');
    for (const margin of [2, 5]) {
      const { outline } = panelOf(assemblyOf(man(`${GROW}, margin: ${margin}`)), 'man left');
      // The diagonal ends 16 mm from where both meet, 30 mm up the ridge, at 40° to it and so at 75° − 40° to the foot.
      const at = (far: number, turn: number) => [
        far * Math.cos((turn * Math.PI) / 180),
        far * Math.sin((turn * Math.PI) / 180),
      ];
      const [vx, vy] = at(30, 75);
      const [dx, dy] = at(16, 35);
      // Seen from the corner, card begins at the corner itself (it is cut there) and goes on for the margin, square to the diagonal and on along it.
      for (const turn of [35, 35 - 45, 35 - 80]) {
        const [ex, ey] = at(margin - 0.001, turn);
        expect(outsideOf(outline, [vx + dx + ex, vy + dy + ey]), `${margin} ${turn}`).toBeLessThan(0);
      }
    }
  });

  it('stays as drawn where there is card enough', () => {
    const room = { broad: 25 };
    const scores = [man('', room), man(GROW, room)].map((text) => {
      const figure = figureOf(text);
      return JSON.stringify(new Scorer(figure).score(figure.start));
    });
    expect(scores[1]).toBe(scores[0]);
  });

  it('never grows over its own foot or ridge', () => {
    for (const side of [5, 12, 16, 19]) {
      const assembly = assemblyOf(man(GROW, { side, broad: 2 }));
      const { outline, up } = panelOf(assembly, 'man left');
      const [ex, ey] = [Math.cos((75 * Math.PI) / 180), Math.sin((75 * Math.PI) / 180)];
      for (let i = 0; i < outline.length; i += 2) {
        const [x, y] = [outline[i], up * outline[i + 1]];
        expect(y).toBeGreaterThan(-1e-6);
        expect(x * ey - y * ex).toBeGreaterThan(-1e-6);
      }
    }
  });

  it('grows by a hair where a dim changes by a hair', () => {
    const figure = figureOf(man(GROW).replace('side: 16', 'side: up'));
    let before = Number.NaN;
    let most = 0;
    // From well within the card to well beyond it: in steps of 0.02 mm no step adds more than a strip so broad.
    for (let up = 14; up < 19; up += 0.02) {
      const area = areaOf(panelOf(figure.build(Float64Array.of(up)), 'man left').outline);
      if (!Number.isNaN(before)) most = Math.max(most, Math.abs(area - before));
      before = area;
    }
    expect(most).toBeLessThan(0.02 * 30);
  });

  it('does not close what was cut before: two counter-folds on one ridge', () => {
    const more =
      '  - { name: nod, kind: counter-fold, on: man ridge, at: 50, toward: end, diagonal: 40, side: 15, length: 18 }';
    const assembly = assemblyOf(man(GROW, { more, broad: 4, at: '22' }));
    const { outline } = panelOf(assembly, 'man left');
    const inNotch = (up: number) => {
      const [vx, vy] = [up * Math.cos((75 * Math.PI) / 180), up * Math.sin((75 * Math.PI) / 180)];
      return outsideOf(outline, [
        vx + 4 * Math.cos((60 * Math.PI) / 180),
        vy + 4 * Math.sin((60 * Math.PI) / 180),
      ]);
    };
    expect(inNotch(22)).toBeGreaterThan(0);
    expect(inNotch(50)).toBeGreaterThan(0);
  });

  it('is drawn for the knife as it has grown: without errors the dummy cut by hand is the figure', () => {
    const figure = figureOf(man(GROW));
    const scorer = new Scorer(figure);
    const template = figure.template(figure.start);
    const cut = scorer.scoreCut(template, new Float64Array(template.cuts.length), figure.start);
    // A dummy cut by hand has its own bounds, and so more room to them: all else is the same.
    const rounded = ({ limits, desirability: _room, ...card }: Scorecard) =>
      JSON.parse(
        JSON.stringify({ ...card, limits: limits.map(({ name, value, met }) => ({ name, value, met })) }),
        (_, v) => (typeof v === 'number' ? +v.toFixed(4) : v),
      );
    expect(rounded(cut)).toEqual(rounded(scorer.score(figure.start)));
    const grown = panelOf(figure.build(figure.start), 'man left').outline;
    const built = panelOf(template.build(new Float64Array(template.cuts.length)), 'man left').outline;
    expect(areaOf(built)).toBeCloseTo(areaOf(grown), 4);
  });

  it('carries a tab that would hang over, and a hub and a slot beside the card', () => {
    const sail = (outline: string, more: string) => `
parts:
  - { name: sail, kind: glued-piece, on: left page, at: [-120, 60], outline: ${outline} }
${more}`;
    const square = 'polygon: [[0, 0], [40, 0], [40, 20], [0, 20]]';
    const hub = `
  - { name: arm, kind: link, from: [-70, 70], to: [-30, 70], width: 12 }
  - { name: hub, kind: pivot, between: [arm, sail], at: [0, 0] }`;
    expect(() => assemblyOf(sail(`{ ${square} }`, hub))).toThrow('lies off the card');
    const { outline } = panelOf(assemblyOf(sail(`{ ${square}, grow: yes }`, hub)), 'sail');
    // Shoulders of 9 mm, and 3 mm around them.
    expect(-outsideOf(outline, [50, 10])).toBeCloseTo(7.5, 0);
    const slot = `
  - { name: flag, kind: v-fold, at: 100, glue: 60, panels: 70, feet: 30, ridge: 40 }
  - { name: gap, kind: slot, on: sail, outline: [[30, 2], [50, 2], [50, 6], [30, 6]], passes: flag left }`;
    expect(() => assemblyOf(sail(`{ ${square} }`, slot))).toThrow('the slot cannot be cut');
    const gap = panelOf(assemblyOf(sail(`{ ${square}, grow: yes, margin: 4 }`, slot)), 'sail');
    expect(-outsideOf(gap.outline, [50, 4])).toBeCloseTo(4, 3);
    expect(() =>
      assemblyOf(
        sail(
          `{ ${square} }`,
          slot.replace(
            'outline: [[30, 2], [50, 2], [50, 6], [30, 6]]',
            'outline: { polygon: [[3, 2], [5, 2], [5, 6]], grow: yes }',
          ),
        ),
      ),
    ).toThrow('a slot does not grow');
  });

  it('may begin with the shape of its own: a tent whose side grows around the foot of a strut', () => {
    const tent = (outlines: string) => `
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [30, 30], widths: [40, 40]${outlines} }
  - { name: prop, kind: strut, foot: { panel: left page, line: [[-60, 50], [-60, 110]] }, top: { panel: tent left, line: [[10, 20], [70, 20]] } }`;
    const plain = panelOf(assemblyOf(tent('')), 'tent left').outline;
    const grown = panelOf(assemblyOf(tent(', outlines: { left: { grow: yes } }')), 'tent left').outline;
    expect(outsideOf(plain, [70, 20])).toBeGreaterThan(0);
    expect(outsideOf(grown, [70, 20])).toBeLessThan(0);
  });
});
