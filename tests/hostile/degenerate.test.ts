import { expect, test, vi } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { patterns } from '../../src/figure/patterns/index.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { reasonOf } from '../../src/report/words/finding-words.js';
import { Scorer } from '../../src/score/scorer.js';
import { SheetError } from '../../src/sheets/layout/paper.js';
import { makeSheets } from '../../src/sheets/make-sheets.js';
import { gauntlet, type Stage } from './gauntlet.js';

vi.setConfig({ testTimeout: 60_000 });

const STAGES: Stage[] = ['poses', 'words', 'trims', 'cut', 'sheets', 'models', 'tune'];

/** Figures drawn to break the geometry, and what a maker is told of them: why there is no card, or what fails. */
const FIGURES: [what: string, parts: string, told: RegExp][] = [
  [
    'a V-fold of no ridge',
    '{ name: v, kind: v-fold, at: 60, glue: [60, 60], panels: [70, 70], feet: [40, 40], ridge: 0 }',
    /parts\.0\.ridge: found 0; give from 0\.01 to 10000 mm/,
  ],
  [
    'a V-fold along the gutter',
    '{ name: v, kind: v-fold, at: 60, glue: [0, 0], panels: [70, 70], feet: [40, 40], ridge: 40 }',
    /glue\.0: found 0; give from/,
  ],
  [
    'a V-fold straight across the gutter: its two glue lines are one line',
    '{ name: v, kind: v-fold, at: 60, glue: [90, 90], panels: [90, 90], feet: [40, 40], ridge: 40 }',
    /it works/,
  ],
  [
    'panels too small to meet over the open page',
    '{ name: v, kind: v-fold, at: 60, glue: [80, 80], panels: [20, 20], feet: [40, 40], ridge: 40 }',
    /'v' locks at a page angle of 180\.0°: the two sides of its ridge/,
  ],
  [
    'a tent that lies flat on the open page',
    '{ name: t, kind: parallel-fold, at: 60, length: 40, glue: [30, 30], widths: [30, 30] }',
    /it works/,
  ],
  [
    'a tent of two feet on the gutter',
    '{ name: t, kind: parallel-fold, at: 60, length: 40, glue: [0, 0], widths: [30, 30] }',
    /glue\.0: found 0; give from 0\.01/,
  ],
  [
    'a part ten times as large as the page',
    '{ name: t, kind: parallel-fold, at: 60, length: 100, glue: [30, 30], widths: [1500, 1500] }',
    /overhang: 't left' sticks out when shut/,
  ],
  [
    'two tents in one place: they start in collision',
    `{ name: t, kind: parallel-fold, at: 60, length: 40, glue: [30, 30], widths: [60, 60] }
  - { name: u, kind: parallel-fold, at: 60, length: 40, glue: [30, 30], widths: [60, 60] }`,
    /'t left tab' lies between 'u left tab' and 'left page', where they are glued together/,
  ],
  [
    'a V-fold that stands through a tent in the open book',
    `{ name: t, kind: parallel-fold, at: 20, length: 80, glue: [30, 30], widths: [60, 60] }
  - { name: v, kind: v-fold, at: 60, glue: [60, 60], panels: [80, 80], feet: [60, 60], ridge: 60 }`,
    /catch: '[tv] \w+' catches on '[tv] \w+'/,
  ],
  [
    'an outline of no area',
    '{ name: g, kind: glued-piece, on: left page, at: [-40, 40], outline: { polygon: [[0, 0], [20, 0], [40, 0]] } }',
    /an edge folds back on the one before/,
  ],
  [
    'an outline that crosses itself',
    '{ name: g, kind: glued-piece, on: left page, at: [-40, 40], outline: { polygon: [[0, 0], [20, 20], [20, 0], [0, 20]] } }',
    /the outline meets itself/,
  ],
  [
    'an outline whose corners coincide',
    '{ name: g, kind: glued-piece, on: left page, at: [-40, 40], outline: { polygon: [[0, 0], [0, 0], [20, 0], [0, 20]] } }',
    /an edge of no length/,
  ],
  [
    'a strut whose foot has no length',
    `{ name: t, kind: parallel-fold, at: 60, length: 40, glue: [30, 30], widths: [60, 60] }
  - { name: s, kind: strut, foot: { panel: left page, line: [[-60, 40], [-60, 40]] }, top: { panel: t left, line: [[0, 20], [20, 20]] }, height: 40 }`,
    /s: a hinge line of no length/,
  ],
  [
    'a counter-fold of straight diagonals',
    `{ name: t, kind: parallel-fold, at: 60, length: 40, glue: [30, 30], widths: [60, 60] }
  - { name: c, kind: counter-fold, on: t ridge, at: 20, toward: end, diagonal: 90, side: 14, length: 18 }`,
    /parts\.1\.diagonal: found 90/,
  ],
  [
    'a link of no length',
    '{ name: l, kind: link, from: [-60, 60], to: [-60, 60], width: 8 }',
    /its two ends are one point/,
  ],
];

/** All that is said of the figure as it starts: the refusal, or the reasons and limits. */
function toldOf(text: string): string {
  try {
    const figure = compileFigure(parseFigure(text, 'f.yaml'));
    const card = new Scorer(figure).score(figure.start);
    const broken = card.limits.filter(({ met }) => !met).map((limit) => `${limit.name}: ${reasonOf(limit)}`);
    return card.cannotBuild ?? (card.works ? 'it works' : broken.join('\n'));
  } catch (error) {
    return (error as Error).message;
  }
}

test.each(FIGURES)('%s is named, and comes through the whole program', async (_, parts, told) => {
  const text = `page: A5\nparts:\n  - ${parts}\n`;
  expect(toldOf(text)).toMatch(told);
  await gauntlet(text, STAGES);
});

test('a tab of no width to speak of is no piece to cut, and it is said which', async () => {
  const pattern = patterns.find(({ name }) => name === 'plate-on-supports')?.text ?? '';
  const text = pattern.replace('tab: { width: 5 }', 'tab: { width: 0.01 }');
  expect(text).not.toBe(pattern);
  const figure = compileFigure(parseFigure(text, 'f.yaml'));
  const made = makeSheets(figure.build(figure.start), { figure: 'plate', paper: 'A2' });
  await expect(made).rejects.toThrow(SheetError);
  await expect(made).rejects.toThrow(/is too narrow to be cut/);
});

test.each([1_000_000, -1_000_000])(
  'a figure whose dim is as far out as one may be, %d, is tuned',
  async (far) => {
    const text = `page: A5
dims: { far: ${far}, turn: ${far} }
parts:
  - { name: t, kind: parallel-fold, at: 60, length: 40, glue: [30 + far / 1e7, 30], widths: [130, 130] }
  - { name: g, kind: glued-piece, on: t left, at: [9, 9], turn: turn / 1e5, outline: { polygon: [[0, 0], [9, 0], [0, 9]] } }
`;
    expect((await gauntlet(text, ['tune'])).end).toBe('card');
  },
);

test('more page angles than there is room for are refused, and what would do is said', () => {
  const text = (step: number) => `page: { width: 400, height: 500 }
opening: { step: ${step} }
parts:
${Array.from({ length: 190 }, (_, i) => `  - { name: v${i}, kind: v-fold, at: ${20 + i}, glue: [60, 60], panels: [70, 70], feet: [20, 20], ridge: 20 }`).join('\n')}
`;
  const read = (step: number) => compileFigure(parseFigure(text(step), 'f.yaml'));
  expect(() => read(0.1)).toThrow(
    'f.yaml:2:18  opening.step: found 0.1; too fine for 762 panels; 0.2° or more will do',
  );
  expect(() => read(0.2)).not.toThrow();
});
