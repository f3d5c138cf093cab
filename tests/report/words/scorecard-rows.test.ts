import { expect, test } from 'vitest';
import { compileFigure } from '../../../src/figure/figure.js';
import { findings, limitRows, wantRows } from '../../../src/report/words/scorecard-rows.js';
import { Scorer } from '../../../src/score/scorer.js';
import { figureOf } from '../live/study.js';

const figure = compileFigure(
  figureOf(`page: A5 portrait
parts: [{ name: tip, kind: v-fold, at: 60, glue: [60, 60], panels: [50, 50], feet: [40, 40], ridge: 40 }]
wants:
  - { name: turns, kind: turn, panel: tip left, least: 12.5 }
  - { name: rises, kind: rise, panel: tip left, target: 30, tolerance: 2 }
  - { name: goes, kind: travel, panel: tip left, point: [3, 4], least: 5, most: 500 }
`),
);
const card = new Scorer(figure).score(figure.start);

test('wants are asked as the maker wrote them; what was not computed has its reason', () => {
  const rows = wantRows(card, figure.wantsOf(figure.start));
  expect(rows.map(({ asked }) => asked)).toEqual(['at least 12.5°', '30 mm ± 2 mm', '5 mm to 500 mm']);
  expect(rows.map(({ value }) => value)).toEqual(['not computed', 'not computed', 'not computed']);
  expect(rows[0].reason).toContain('it locks at');
});

test('limits say what is allowed, in plain numbers', () => {
  const rows = limitRows(card);
  expect(rows.find(({ name }) => name === 'give')?.asked).toBe('at most 0.5 mm');
  expect(rows.find(({ name }) => name === 'shuts')?.asked).toBe('at most 0°');
  expect(rows.find(({ name }) => name === 'pile')?.value).toBe('not computed');
});

test('the lock is told of in a sentence, and each thing that could not be computed', () => {
  const said = findings(card);
  expect(said[0]).toMatch(/^tip locks at \d+\.\d°: /);
  expect(said).toContainEqual(expect.stringMatching(/^turns: it locks at/));
});
