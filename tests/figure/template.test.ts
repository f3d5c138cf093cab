import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { CutRing } from '../../src/figure/hand/cut-ring.js';
import { readFigure } from '../../src/figure/read.js';
import { parseFigure } from '../../src/figure/text/source.js';
import type { Scorecard } from '../../src/score/scorecard.js';
import { Scorer } from '../../src/score/scorer.js';
import { stream } from '../../src/search/random.js';

const figureOf = (parts: string) => compileFigure(parseFigure(`page: A5\nparts:\n${parts}`, 'f.yaml'));
const TENT = `  - { name: boat, kind: parallel-fold, at: 20, length: 60, glue: [30, 25], widths: [40, 45] }\n`;
const POSTS = `
  - { name: near, kind: v-fold, at: 40, glue: [80, 45], panels: [45, 80], feet: [60, 40], ridge: 50 }
  - { name: far, kind: v-fold, at: 80, glue: [80, 45], panels: [45, 80], feet: [60, 40], ridge: 50 }
`;

/** A dummy with one error. */
function dummyWith(figure: ReturnType<typeof figureOf>, cut: string, error: number) {
  const template = figure.template(figure.start);
  const errors = new Float64Array(template.cuts.length);
  const place = template.cuts.findIndex(({ part, field }) => `${part}: ${field}` === cut);
  expect(place, template.cuts.map(({ part, field }) => `${part}: ${field}`).join('\n')).toBeGreaterThan(-1);
  errors[place] = error;
  return { template, errors, assembly: template.build(errors) };
}

const outlineOf = (assembly: ReturnType<typeof dummyWith>['assembly'], panel: string) =>
  [...assembly.panels[assembly.panelNamed(panel, '')].outline].map((v) => Math.round(v * 1e6) / 1e6);

describe('a template', () => {
  it.each(['ferryman', 'heron', 'tightrope'])('of the %s without errors is the figure as drawn', (name) => {
    const figure = compileFigure(readFigure(`examples/${name}.yaml`));
    const scorer = new Scorer(figure);
    const template = figure.template(figure.start);
    const cut = scorer.scoreCut(template, new Float64Array(template.cuts.length), figure.start);
    // A stretch taken apart into middle, heading and length comes back to the last bit but one. Where card gives way, a dummy
    // that is cut has other bounds than a drawing, and so another room to them.
    const rounded = ({ limits, desirability: _, ...card }: Scorecard) =>
      JSON.parse(
        JSON.stringify({ ...card, limits: limits.map(({ name, value, met }) => ({ name, value, met })) }),
        (_, v) => (typeof v === 'number' ? +v.toFixed(6) : v),
      );
    expect(rounded(cut)).toEqual(rounded(scorer.score(figure.start)));
  });

  it('lists what is cut, with units, each under a name of its own', () => {
    const figure = compileFigure(readFigure('examples/tightrope.yaml'));
    const names = figure.template(figure.start).cuts.map(({ part, field }) => `${part}: ${field}`);
    expect(new Set(names).size).toBe(names.length);
    const tent = figureOf(TENT);
    expect(
      tent.template(tent.start).cuts.map(({ field, unit, value }) => `${field} ${value} ${unit}`),
    ).toEqual([
      'at 20 mm',
      'length 60 mm',
      'glue left 30 mm',
      'glue right 25 mm',
      'widths left 40 mm',
      'widths right 45 mm',
      'tab width 8 mm',
      'tab mitre 45 degrees',
    ]);
  });

  it('puts each error where it belongs, and nowhere else', () => {
    const figure = figureOf(TENT);
    const drawn = figure.build(figure.start);
    const { assembly } = dummyWith(figure, 'boat: widths left', 1);
    expect(outlineOf(assembly, 'boat left')).toEqual([0, 0, 60, 0, 60, 41, 0, 41]);
    expect(outlineOf(assembly, 'boat right')).toEqual(outlineOf(drawn, 'boat right'));
    expect(outlineOf(assembly, 'boat left tab')).toEqual(outlineOf(drawn, 'boat left tab'));
  });

  it('cuts the panels of a box as drawn, wherever it is glued', () => {
    const figure = figureOf(
      `  - { name: box, kind: parallel-fold, shape: box, at: 20, length: 60, glue: [30, 25] }\n`,
    );
    const { assembly } = dummyWith(figure, 'box: glue left', 1);
    expect(outlineOf(assembly, 'box right')).toEqual(outlineOf(figure.build(figure.start), 'box right'));
    expect(outlineOf(dummyWith(figure, 'box: widths right', 1).assembly, 'box right')).toContain(-31);
  });

  it('draws what follows from the open figure before anything is cut: a plate does not follow its supports', () => {
    const plate = `${POSTS}
  - name: nest
    kind: plate
    glued: by measure
    supports:
      - { panel: near left, line: [[20, 12], [40, 12]] }
      - { panel: far left, line: [[20, 12], [40, 12]] }
`;
    const figure = figureOf(plate);
    const scorer = new Scorer(figure);
    const misfit = (cut: string) => {
      const { template, errors } = dummyWith(figure, cut, 0.4);
      return scorer.scoreCut(template, errors, figure.start).bind.misfit;
    };
    // Posts 0.4 mm too far apart, or a hinge 0.4 mm off along the plate: the hinge misses its place by 0.4 mm.
    expect(misfit('far: at')).toBeCloseTo(0.4, 6);
    expect(misfit('nest: support 2 meets across')).toBeCloseTo(0.4, 6);
  });

  it('closes the page on the last tab: a fold so glued is off by how it is closed on alone, and shuts with no force', () => {
    const figure = figureOf(POSTS);
    const measured = figureOf(POSTS.replaceAll('kind: v-fold', 'kind: v-fold, glued: by measure'));
    const forced = (of: typeof figure, cut: string) => {
      const { template, errors } = dummyWith(of, cut, 0.4);
      return new Scorer(of).scoreCut(template, errors, of.start).bind.misfit;
    };
    expect(forced(figure, 'far: panels left')).toBeLessThan(1e-6);
    expect(forced(measured, 'far: panels left')).toBeGreaterThan(0.1);
    expect(forced(figure, 'far: glue right')).toBeGreaterThan(0.1);
    const closed = figure.template(figure.start).cuts.filter(({ closedOn }) => closedOn);
    expect(closed.map(({ part, field }) => `${part}: ${field}`)).toEqual([
      'near: glue right',
      'far: glue right',
    ]);
  });

  it.each([
    ['v-fold', 'at: 30, points: out, glue: [60, 50], panels: [50, 60], feet: 30, ridge: 40', 'panels'],
    ['parallel-fold', 'at: 20, length: 60, points: out, glue: [30, 35], widths: [35, 30]', 'widths'],
  ])('so does a %s that points out and shuts away from its crease: %s', (kind, fields, sides) => {
    const figure =
      figureOf(`  - { name: mast, kind: v-fold, at: 40, glue: 70, panels: 85, feet: 70, ridge: 100 }
  - { name: fold, kind: ${kind}, on: mast ridge, ${fields} }
`);
    const { template, errors } = dummyWith(figure, `fold: ${sides} left`, 0.4);
    expect(new Scorer(figure).scoreCut(template, errors, figure.start).bind.misfit).toBeLessThan(1e-6);
  });

  it('closes one that points out, alike on both sides, where it shuts: back over its crease', () => {
    const figure =
      figureOf(`  - { name: mast, kind: v-fold, at: 40, glue: 70, panels: 85, feet: 70, ridge: 100 }
  - { name: fold, kind: parallel-fold, on: mast ridge, at: 20, length: 60, points: out, glue: 20, widths: 30 }
`);
    const { assembly } = dummyWith(figure, 'fold: widths left', 0.4);
    // Its crease lies at foot − width on both sides: the right foot is closed on nearer by what the left side is too wide.
    const foot = assembly.folds.find(({ part }) => part === 'fold')?.feet[1];
    expect(foot).toBeCloseTo(19.6, 9);
  });

  it('of a counter-fold through two layers errs as one, of one glued on its own each side by itself', () => {
    const figure = figureOf(`${TENT}
  - { name: in, kind: counter-fold, on: boat ridge, at: 10, diagonal: 40, side: 12, length: 15 }
  - { name: out, kind: counter-fold, on: boat left foot inner, at: 10, diagonal: 40, side: 12, length: 15 }
`);
    const fields = (part: string) =>
      figure.template(figure.start).cuts.flatMap((cut) => (cut.part === part ? [cut.field] : []));
    expect(fields('in')).toEqual(['at', 'diagonal', 'side', 'length']);
    expect(fields('out')).toEqual([
      'at',
      'diagonal left',
      'diagonal right',
      'triangle left',
      'triangle right',
      'side left',
      'side right',
      'length',
      'tab width',
      'tab mitre',
    ]);
  });

  it('keeps the corners of outlines on their creases, so that every dummy can be built', () => {
    const figure = compileFigure(readFigure('examples/ferryman.yaml'));
    const template = figure.template(figure.start);
    const random = stream(1, 'errors');
    for (let k = 0; k < 200; k++) {
      // But for the slot, which comes through to the edge of the card in some.
      const errors = Float64Array.from(template.cuts, ({ part, unit }) =>
        part === 'sleeve' ? 0 : random.normal() * (unit === 'mm' ? 0.3 : 0.5),
      );
      try {
        template.build(errors);
      } catch (error) {
        expect(String(error)).toContain('sleeve: the slot cannot be cut out of');
      }
    }
    // The head is slit to the end of the ridge: an error leaves it there.
    const ridge = dummyWith(figure, 'man: ridge', -0.5).assembly.creases.get('man ridge');
    expect(ridge?.lines[0].y1).toBeCloseTo(77.5 * Math.sin((120 * Math.PI) / 180), 9);
  });
});

describe('a ring that is cut by hand', () => {
  const crease = [
    [0, 0],
    [10, 0],
  ] as const;
  const square = [
    [0, 0],
    [10, 0],
    [10, 10],
    [0, 10],
  ] as const;

  it('keeps an edge on its crease and errs at its other corners', () => {
    const ring = new CutRing(square, [crease]);
    expect(ring.stationCorners).toEqual([2, 3]);
    const turned = [
      [0, 1],
      [10, 2],
    ] as const;
    expect(ring.cut((station, axis) => (station === 0 && axis === 0 ? 0.3 : 0), [turned])).toEqual([
      [0, 1],
      [10, 2],
      [10.3, 10],
      [0, 10],
    ]);
  });

  it('does not take a corner that only touches a crease, or an edge beyond its end, for the crease', () => {
    const beyond = [
      [-20, 0],
      [-1, 0],
    ] as const;
    expect(new CutRing(square, [beyond]).stationCorners).toHaveLength(4);
  });

  it('moves corners of one stroke together, and no corner by more than the errors', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 400, maxLength: 400 }),
        fc.integer({ min: 3, max: 150 }),
        (errors, count) => {
          // A circle of 40 mm, in many corners: some 25 strokes of 5 mm.
          const circle = Array.from({ length: count }, (_, i) => {
            const at = (2 * Math.PI * i) / count;
            return [20 * Math.cos(at), 20 * Math.sin(at)] as const;
          });
          const ring = new CutRing(circle, []);
          expect(ring.stationCorners.length).toBeLessThanOrEqual(26);
          const cut = ring.cut((station, axis) => errors[2 * station + axis], []);
          const off = cut.map(([x, y], i) => [x - circle[i][0], y - circle[i][1]]);
          for (const [dx, dy] of off)
            expect(Math.max(Math.abs(dx), Math.abs(dy))).toBeLessThanOrEqual(1 + 1e-12);
          for (const [i, [dx]] of off.entries()) {
            const step = Math.abs(dx - off[(i + 1) % count][0]);
            const long = 2 * 20 * Math.sin(Math.PI / count);
            expect(step).toBeLessThanOrEqual(2 * Math.min(1, long / 5) + 1e-12);
          }
        },
      ),
      { numRuns: 60 },
    );
  });
});
