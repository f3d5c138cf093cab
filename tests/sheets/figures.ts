import { compileFigure } from '../../src/figure/figure.js';
import { readFigure } from '../../src/figure/read.js';
import type { Assembly } from '../../src/motion/assembly.js';
import { planSheets } from '../../src/sheets/plan.js';
import { type SheetOptions, settingsOf } from '../../src/sheets/settings.js';
import { assemble, type PlainPart } from '../support/assemble.js';

/** Figures to be cut in the tests, each with another way of hanging together. */

export const plan = (assembly: Assembly, options: Partial<SheetOptions> = {}) =>
  planSheets(assembly, settingsOf({ figure: 'test', ...options }, assembly.thicknessOf));

export function example(name: string): Assembly {
  const figure = compileFigure(readFigure(`examples/${name}.yaml`));
  return figure.build(figure.start);
}

const box = (points: [number, number][]) => ({ polygon: points });

/** A post with a straight top, to carry plates: opposite sectors equal, so that it lies flat open and shut. */
export const post = (name: string, at: number): PlainPart => ({
  name,
  kind: 'v-fold',
  at,
  glue: [90, 45],
  panels: [45, 90],
  feet: [60, 36],
  ridge: 36,
  outlines: {
    left: box([
      [0, 0],
      [60, 0],
      [58, 14],
      [38, 14],
      [25.46, 25.46],
    ]),
  },
  tab: { width: 6, side: 'outer' },
});

const top: [[number, number], [number, number]] = [
  [40, 14],
  [56, 14],
];

/** A plate on two posts. */
export const table: PlainPart[] = [
  post('near', 60),
  post('far', 100),
  {
    name: 'board',
    kind: 'plate',
    supports: [
      { panel: 'near left', line: top },
      { panel: 'far left', line: top },
    ],
    margin: 6,
  },
];

export const figures: Record<string, () => Assembly> = {
  ferryman: () => example('ferryman'),
  heron: () => example('heron'),
  tightrope: () => example('tightrope'),
  'box with an arm': () =>
    assemble([
      { name: 'box', kind: 'parallel-fold', shape: 'box', at: 40, length: 60, glue: [30, 20] },
      { name: 'arm', kind: 'counter-fold', on: 'box ridge', at: 10, diagonal: 40, side: 15, length: 18 },
    ]),
  layer: () =>
    assemble([
      {
        name: 'stage',
        kind: 'parallel-fold',
        shape: 'layer',
        at: 50,
        length: 70,
        glue: [30, 30],
        widths: [36, 36],
        layers: [25, 25],
        tab: { side: 'outer' },
      },
    ]),
  'leaning tent': () =>
    assemble([
      {
        name: 'tent',
        kind: 'parallel-fold',
        at: 20,
        length: 90,
        glue: [40, 30],
        widths: [45, 55],
        tab: { side: 'outer' },
      },
      {
        name: 'sail',
        kind: 'v-fold',
        on: 'tent ridge',
        at: 30,
        glue: [70, 60],
        panels: [70, 80],
        feet: [30, 25],
        ridge: 40,
      },
    ]),
  table: () => assemble(table),
  // Its tabs would lie over it when it is flat: each is a folded strip, glued to both.
  'plank on strips': () =>
    assemble([
      post('near', 60),
      {
        name: 'plank',
        kind: 'plate',
        margin: 5,
        supports: [
          {
            panel: 'left page',
            line: [
              [-120, 60],
              [-104, 60],
            ],
          },
          {
            panel: 'near left',
            line: [
              [30, 6],
              [46, 6],
            ],
          },
        ],
      },
    ]),
  // The piece on the post is turned over on the sheet, since a strut stands on its back.
  'piece that carries on its back': () =>
    assemble([
      ...[45, 85].map(
        (at, i): PlainPart => ({
          name: ['near', 'far'][i],
          kind: 'v-fold',
          at,
          glue: [80, 45],
          panels: [45, 80],
          feet: [75, 40],
          ridge: 60,
        }),
      ),
      {
        name: 'flag',
        kind: 'glued-piece',
        on: 'far left',
        at: [50, 5],
        outline: box([
          [0, 0],
          [16, 0],
          [16, 34],
          [4, 34],
        ]),
      },
      {
        name: 'stay',
        kind: 'strut',
        foot: {
          panel: 'near left',
          line: [
            [50, 10],
            [58, 10],
          ],
        },
        top: {
          panel: 'flag',
          line: [
            [4, 25],
            [12, 25],
          ],
        },
      },
    ]),
  'wing glued on a crease': () =>
    assemble([
      {
        name: 'box',
        kind: 'parallel-fold',
        shape: 'box',
        at: 5,
        length: 80,
        glue: [30, 30],
        tab: { side: 'outer' },
      },
      {
        name: 'wings',
        kind: 'counter-fold',
        on: 'box ridge',
        at: 10,
        diagonal: 40,
        side: 20,
        length: 30,
        fold: 'out',
        triangle: 60,
        tab: { width: 5 },
      },
      {
        name: 'left wing',
        kind: 'glued-piece',
        on: 'wings left',
        at: [2, 2],
        turn: 15,
        outline: box([
          [0, 0],
          [50, 0],
          [50, 12],
          [0, 12],
        ]),
      },
    ]),
  'bridge from the page': () =>
    assemble([
      {
        name: 'box',
        kind: 'parallel-fold',
        shape: 'box',
        at: 20,
        length: 60,
        glue: [30, 30],
        tab: { side: 'outer' },
      },
      {
        name: 'plank',
        kind: 'strut',
        foot: {
          panel: 'left page',
          line: [
            [-70, 30],
            [-70, 60],
          ],
        },
        top: {
          panel: 'box left',
          line: [
            [10, 15],
            [40, 15],
          ],
        },
      },
    ]),
};
