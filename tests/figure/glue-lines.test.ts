import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { refusal } from './support.js';

/** A V-fold at 60 on the gutter, and one on a tent's left foot. */
const TEXT = `page: A5
places:
  low: { on: gutter, at: 60 }
  out: { on: left page, at: [-30, 90] }
  far: { on: right page, at: [40, 60] }
  back: { on: left page, at: [-30, 20] }
parts:
  - { name: man, kind: v-fold, at: AT, toward: TOWARD, glue: GLUE, feet: 30, ridge: 40 }
`;

const figureOf = (glue: string, at = 'along(low on gutter)', toward = 'end') =>
  compileFigure(
    parseFigure(TEXT.replace('GLUE', glue).replace('AT', at).replace('TOWARD', toward), 'x.yaml'),
  );

/** Angles of the two glue lines of the man from the gutter, where his feet lie in the open figure, degrees. */
function anglesOf(glue: string, at?: string, toward?: string): number[] {
  const figure = figureOf(glue, at, toward);
  const { open, panels } = figure.build(figure.start);
  return ['man left', 'man right'].map((name) => {
    const k = 12 * panels.findIndex((panel) => panel.name === name);
    // The foot runs along the panel's x axis.
    return (Math.atan2(Math.abs(open[k]), open[k + 4]) * 180) / Math.PI;
  });
}

describe('a glue line', () => {
  it.each([
    // 30 out and 30 up.
    ['{ from: low, to: out }', 45, 45],
    ['{ from: out, to: low }', 45, 45],
    ['[{ from: low, to: out }, 45]', 45, 45],
    ['[90, { from: low, to: far }]', 90, 90],
    ['{ from: low, to: far }', 90, 90],
    ['[{ from: low, to: out }, { from: [0, 60], to: [30, 90] }]', 45, 45],
  ])('%s is at %d° and %d°', (glue, left, right) => {
    const [a, b] = anglesOf(glue);
    expect(a).toBeCloseTo(left, 6);
    expect(b).toBeCloseTo(right, 6);
  });

  it('counts from the crease the way that the part is turned', () => {
    // 30 out and 40 down, from the way down: atan(30/40).
    const figure = figureOf('{ from: low, to: back }', '60', 'start');
    expect(figure.build(figure.start).panels.length).toBe(6);
    expect(anglesOf('{ from: low, to: back }', '60', 'start')[0]).toBeCloseTo(
      180 - (Math.atan2(30, 40) * 180) / Math.PI,
      6,
    );
  });

  it('must go through the apex, and lie on its side', () => {
    const build = (glue: string, at?: string) => {
      const figure = figureOf(glue, at);
      return () => figure.build(figure.start);
    };
    expect(build('{ from: low, to: out }', '62')).toThrow(
      /meets 'gutter' at 60\.00 mm, where the apex must be, and the apex is at 62\.00 mm/,
    );
    expect(build('[{ from: low, to: far }, 60]')).toThrow(/on the other side of 'gutter'.*left/);
    expect(build('{ from: low, to: { on: gutter, at: 90 } }')).toThrow(
      /on the other side|runs along 'gutter'/,
    );
    expect(refusal(() => figureOf('{ frm: low, to: out }'))).toMatch(
      /the line itself, \{ from: place, to: place \}/,
    );
  });

  it('is one angle that errs when it is cut by hand', () => {
    const figure = figureOf('[{ from: low, to: out }, 45]');
    const own = figure.template(figure.start).cuts.filter(({ field }) => field.startsWith('glue'));
    expect(own.map(({ field, unit }) => [field, unit])).toEqual([
      ['glue left', 'degrees'],
      ['glue right', 'degrees'],
    ]);
    expect(own[0].value).toBeCloseTo(45, 9);
  });
});

describe('a twin on the other page', () => {
  const PAIRS = `page: A5
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: 120, glue: 60, widths: 66 }
  - name: near
    kind: v-fold
    on: tent left foot outer
    at: 50
    points: out
    glue: [60, 50]
    panels: 125
    feet: [30, 20]
    ridge: 20
    outlines: { left: [[0, 0], [30, 0], { on: ridge, at: [end, 9] }, { on: ridge, at: end }] }
  - { name: far, twin of: near, on: tent right foot outer }
  - { name: leaf, kind: glued-piece, on: left page, at: [-40, 10], turn: 20, outline: [[0, 0], [20, 0], [20, 10]] }
  - { name: other leaf, twin of: leaf, on: right page, at: [40, 10], turn: -20, outline: { mirror: leaf } }
  - name: sail
    kind: v-fold
    at: 10
    glue: [50, 60]
    feet: [20, 30]
    ridge: 30
    outlines: { left: [[0, 0], [20, 0], { on: ridge, at: [end, 9] }, { on: ridge, at: end }] }
  - { name: jib, twin of: sail, glue: [60, 50], feet: [30, 20], outlines: { right: { mirror: sail left } } }
`;
  const figure = compileFigure(parseFigure(PAIRS, 'x.yaml'));
  const { panels, open } = figure.build(figure.start);
  /** Corners of a panel in the open figure, x turned round for a mirror in the plane of the gutter. */
  const corners = (name: string, way: 1 | -1) => {
    const k = panels.findIndex((panel) => panel.name === name);
    const { outline } = panels[k];
    return Array.from({ length: outline.length / 2 }, (_, i) => {
      const [x, y] = [outline[2 * i], outline[2 * i + 1]];
      const at = [0, 4, 8].map(
        (row) => open[12 * k + row] * x + open[12 * k + row + 1] * y + open[12 * k + row + 3],
      );
      return [way * at[0], at[1], at[2]].map((v) => (Math.round(v * 1e6) / 1e6 || 0).toFixed(6)).join(' ');
    }).sort();
  };

  it.each([
    ['near left', 'far left'],
    ['near right', 'far right'],
    ['leaf', 'other leaf'],
    ['sail left', 'jib right'],
    ['sail right', 'jib left'],
  ])('%s and %s are mirror images', (one, other) => {
    expect(corners(other, -1)).toEqual(corners(one, 1));
  });
});
