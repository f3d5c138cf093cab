import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { refusal } from './support.js';

/** A tent of 30 and 50 mm feet and sides, so that its ridge stands 40 mm over the open gutter; a card on the left page. */
const BASE = `page: A5
places:
  tip: { on: tent ridge, at: middle }
  spot: { on: card, at: [10, 5] }
PLACES
parts:
  - { name: tent, kind: parallel-fold, at: 50, length: 80, glue: [30, 30], widths: [50, 50] }
  - { name: card, kind: glued-piece, on: left page, at: [-100, 100], turn: 90, outline: [[0, 0], [40, 0], [40, 20], [0, 20]] }
`;

const figureOf = (part: string, places = '') =>
  compileFigure(parseFigure(BASE.replace('PLACES', places) + part, 'x.yaml'));

/** The corners of the first hole or the outline of a panel. */
function outlineOf(part: string, panel: string, places = ''): number[][] {
  const figure = figureOf(part, places);
  const { panels } = figure.build(figure.start);
  const found = panels.find(({ name }) => name === panel);
  const ring = [...(found?.outline ?? [])];
  return ring.flatMap((x, i) => (i % 2 === 0 ? [[x, ring[i + 1] * (found?.up ?? 1)]] : []));
}

/** Where the corner of a little card on the left page comes to lie that is put at a place. */
function placeOf(at: string, places = ''): number[] {
  const figure = figureOf(
    `  - { name: mark, kind: stiffener, on: left page, at: ${at}, size: [1, 1] }\n`,
    places,
  );
  const assembly = figure.build(figure.start);
  const k = assembly.panelNamed('mark', '');
  return [assembly.open[12 * k + 3], assembly.open[12 * k + 7]].map((v) => Math.round(v * 1e6) / 1e6);
}

describe('a place', () => {
  it('of another panel is pricked through onto the card under it', () => {
    // The card is turned a quarter: 10 along it is up the page, 5 up from its foot is towards the fore-edge.
    expect(placeOf('spot')).toEqual([-105, 110]);
    expect(placeOf('{ on: card, at: [0, 20] }')).toEqual([-120, 100]);
  });

  it('lies so far along a crease, by number or word', () => {
    expect(placeOf('{ on: tent left foot inner, at: 12 }')).toEqual([-30, 62]);
    expect(placeOf('{ on: tent left foot inner, at: end - 12 }')).toEqual([-30, 118]);
    // Off the crease towards the side of the page that is meant: inner is towards the gutter.
    expect(placeOf('{ on: tent left foot inner, at: [middle, 5] }')).toEqual([-25, 90]);
    expect(placeOf('{ on: tent left foot outer, at: [middle, 5] }')).toEqual([-35, 90]);
  });

  it('lies where two lines meet', () => {
    expect(placeOf('{ meet: [[[-50, 0], [-50, 9]], { from: [-60, 60], turn: 45, far: 1 }] }')).toEqual([
      -50, 70,
    ]);
    expect(
      placeOf('{ meet: [{ through: spot, square to: gutter }, { through: [-80, 3], along: gutter }] }'),
    ).toEqual([-80, 110]);
  });

  it('lies so far from one point, or from two', () => {
    expect(placeOf('{ from: spot, turn: 180, far: 5 }')).toEqual([-110, 110]);
    expect(placeOf('{ from: [-60, 10], toward: [-60, 90], far: 7 }')).toEqual([-60, 17]);
    // A triangle of 3, 4 and 5.
    expect(placeOf('{ between: [[-60, 10], [-55, 10]], far: [3, 4], side: left }')).toEqual([-58.2, 12.4]);
    expect(placeOf('{ between: [[-60, 10], [-55, 10]], far: [3, 4], side: right }')).toEqual([-58.2, 7.6]);
    expect(placeOf('{ on: [[-60, 0], [-60, 9]], from: [-63, 50], far: 5, side: end }')).toEqual([-60, 54]);
    expect(placeOf('{ on: [[-60, 0], [-60, 9]], from: [-63, 50], far: 5, side: start }')).toEqual([-60, 46]);
  });

  it('with a name is drawn on the panel of the place that it goes out from, wherever it is asked for', () => {
    // The card is turned by 90°: its foot runs up the page.
    expect(placeOf('spot')).toEqual([-105, 110]);
    expect(placeOf('beyond', '  beyond: { from: spot, turn: 0, far: 10 }')).toEqual([-105, 120]);
    expect(placeOf('{ from: spot, turn: 0, far: 10 }')).toEqual([-95, 110]);
  });

  it('lies where a line in space goes through a panel', () => {
    // From the ridge, 40 mm up, to the right foot: the way on meets the page at the foot itself.
    expect(
      placeOf(
        '{ line: rafter, crosses: left page }',
        '  rafter: { from: { on: tent left, at: [20, 50] }, to: { on: tent left, at: [40, 25] } }',
      ),
    ).toEqual([-30, 110]);
  });

  it('may be asked for at a page angle', () => {
    // The right page stands upright on the left one at 90°: its fore-edge is over the gutter.
    expect(placeOf('{ on: right page, at: [0, 30], opened: 90 }')).toEqual([0, 30]);
  });

  it.each([
    ['{ on: dot, at: 4 }', 'that lies so far along it'],
    ['{ line: dot, crosses: left page }', 'in which it goes through a panel'],
    ['{ from: spot, turn: angle(dot to gutter), far: 3 }', 'at its angle'],
  ])('%s: on a line of no length there is none %s', (at) => {
    expect(() => placeOf(at, '  dot: [spot, spot]')).toThrow(/a line of no length/);
  });

  it('that comes later, or does not lie flat, is refused with the reason', () => {
    expect(refusal(() => placeOf('{ on: later, at: [0, 0] }'))).toMatch(
      /crease or line is named 'later' so far/,
    );
    expect(refusal(() => placeOf('nowhere'))).toMatch(
      /no place is named 'nowhere' so far; the places are: tip, spot/,
    );
    expect(() => placeOf('{ on: tent left, at: [0, 40] }')).toThrow(
      /does not lie flat on 'left page'.*mm off/,
    );
    expect(
      refusal(() => placeOf('a', '  a: { from: b, turn: 0, far: 1 }\n  b: { from: a, turn: 0, far: 1 }')),
    ).toMatch(/circle/);
  });
});

describe('arithmetic measures', () => {
  it.each([
    ['distance(tip to spot)', Math.hypot(105, 110 - 90, 40)],
    ['length(tent ridge)', 80],
    ['angle(gutter to tent ridge)', 0],
    ['angle(gutter to side)', 90],
    ['heading(side on left page)', 180],
    ['along(spot on left page)', -105],
    ['up(spot on card)', 5],
    ['up(spot on tent left foot outer)', 75],
    ['distance(tip to spot) / 2 + min(1, length(tent ridge))', Math.hypot(105, 20, 40) / 2 + 1],
  ])('%s', (asked, value) => {
    const places = '  side: { from: spot, to: { on: left page, at: [-140, 110] } }';
    const corners = outlineOf(
      `  - { name: bar, kind: stiffener, on: left page, at: [0, 0], size: ["abs(${asked}) + 1", 1] }\n`,
      'bar',
      places,
    );
    expect(corners[1][0]).toBeCloseTo(Math.abs(value) + 1, 6);
  });

  it('at a page angle', () => {
    // Half open, the ridge of a symmetric tent stands over the line at 45°, by the cosine rule.
    const corners = outlineOf(
      `  - { name: bar, kind: stiffener, on: left page, at: [0, 0], size: [distance(near to far at 90), 1] }\n`,
      'bar',
      '  near: { on: left page, at: [-30, 0] }\n  far: { on: right page, at: [30, 0] }',
    );
    expect(corners[1][0]).toBeCloseTo(30 * Math.SQRT2, 6);
  });

  it('is not known in dims, and what is misspelt is told', () => {
    const dims = (text: string) => () =>
      compileFigure(parseFigure(`dims: { d: "${text}" }\n${BASE}`.replace('PLACES', ''), 'x'));
    expect(refusal(dims('distance(tip to spot)'))).toMatch(/dims are there before any part/);
    expect(refusal(dims('distance(tip)'))).toMatch(/write distance\(one place to another\)/);
    expect(refusal(dims('distanc(tip)'))).toMatch(/the functions are .*distance/);
  });
});

describe('an outline', () => {
  const SAIL =
    '  - { name: sail, kind: v-fold, at: 160, glue: [60, 60], panels: [70, 70], feet: [40, 40], ridge: 50, outlines: OUTLINES }\n';

  it('has corners along the creases of its own panel', () => {
    const outlines = '{ left: [[0, 0], [40, 0], { on: ridge, at: [end, 6] }, { on: ridge, at: end }] }';
    const corners = outlineOf(SAIL.replace('OUTLINES', outlines), 'sail left');
    const [c, s] = [Math.cos((70 * Math.PI) / 180), Math.sin((70 * Math.PI) / 180)];
    expect(corners[3][0]).toBeCloseTo(50 * c, 9);
    expect(corners[3][1]).toBeCloseTo(50 * s, 9);
    expect(corners[2][0]).toBeCloseTo(50 * c + 6 * s, 9);
    expect(corners[2][1]).toBeCloseTo(50 * s - 6 * c, 9);
  });

  it('is mirrored from the other side of a fold', () => {
    const outlines = '{ right: { mirror: left }, left: [[0, 0], [40, 0], [20, 30], { on: ridge, at: end }] }';
    const part = SAIL.replace('OUTLINES', outlines);
    const sorted = (panel: string) => outlineOf(part, panel).map(String).sort();
    expect(sorted('sail right')).toEqual(sorted('sail left'));
  });

  it('is drawn around what lies on the panel', () => {
    const part = `  - { name: patch, kind: glued-piece, on: card, at: [0, 0], outline: { around: [spot, [20, 5]], margin: 2 } }\n`;
    expect(
      outlineOf(part, 'patch')
        .map((p) => p.map((v) => Math.round(v * 1e9) / 1e9))
        .sort(),
    ).toEqual(
      [
        [8, 3],
        [8, 7],
        [22, 3],
        [22, 7],
      ].sort(),
    );
  });

  it('of a slot may have any form', () => {
    const part = `  - { name: hole, kind: slot, on: card, outline: { around: [spot], margin: 2 }, passes: tent left }\n`;
    const figure = figureOf(part);
    const assembly = figure.build(figure.start);
    expect(assembly.panels[assembly.panelNamed('card', '')].holes[0].length).toBe(8);
  });

  it('that no card can have is refused where it stands', () => {
    const outlines = '{ left: [[0, 0], [40, 0], { on: ridge, at: end }, { on: ridge, at: end }] }';
    const figure = figureOf(SAIL.replace('OUTLINES', outlines));
    expect(() => figure.build(figure.start)).toThrow(/its outline is no shape of card/);
  });
});

describe('a place along a crease', () => {
  const tentAt = (at: string, rest = 'length: 30') => {
    const figure = figureOf(
      `  - { name: b, kind: parallel-fold, shape: box, at: ${at}, ${rest}, glue: [8, 8] }\n`,
    );
    const { open, panelNamed } = figure.build(figure.start);
    return open[12 * panelNamed.call(figure.build(figure.start), 'b left', '') + 7];
  };
  it('may be a word, and a fold that has a length fits there', () => {
    expect(tentAt('start')).toBe(0);
    expect(tentAt('end')).toBe(180);
    expect(tentAt('middle + 1')).toBe(91);
  });
});

describe('by hand', () => {
  it('a pricked place has one error of its own in either direction', () => {
    const figure = figureOf(`  - { name: mark, kind: stiffener, on: left page, at: spot, size: [1, 1] }\n`);
    const { cuts, build } = figure.template(figure.start);
    const own = cuts.filter(({ part, field }) => part === 'mark' && field.startsWith('at'));
    expect(own.map(({ value }) => value)).toEqual([-105, 110]);
    // The card from which it was pricked is glued elsewhere: the mark stays.
    const errors = new Float64Array(cuts.length);
    errors[cuts.findIndex(({ part, field }) => part === 'card' && field === 'at x')] = 3;
    const assembly = build(errors);
    expect(assembly.open[12 * assembly.panelNamed('mark', '') + 3]).toBe(-105);
    expect(assembly.open[12 * assembly.panelNamed('card', '') + 3]).toBe(-97);
  });
});
