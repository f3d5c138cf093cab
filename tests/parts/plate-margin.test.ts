import { expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { Scorer } from '../../src/score/scorer.js';

const tents = (fields: string) => {
  const figure = compileFigure(
    parseFigure(
      `page: A5
parts:
  - { name: outer, kind: parallel-fold, at: 60, length: 90, glue: 50, widths: 56 }
  - { name: inner, kind: parallel-fold, at: 60, length: 90, glue: 25, widths: 28 }
  - { name: shelf, kind: plate${fields} }
`,
      'shelf.yaml',
    ),
  );
  const shelf = figure.build(figure.start).panels.find(({ name }) => name === 'shelf');
  const { clash } = new Scorer(figure).score(figure.start);
  const ring = shelf?.outline ?? [];
  const reach = (axis: 0 | 1) => {
    const values = ring.filter((_, i) => i % 2 === axis);
    return [Math.min(...values), Math.max(...values)].map((v) => Math.round(1e6 * v) / 1e6 + 0);
  };
  return { deepest: clash.deepest, corners: ring.length / 2, along: reach(0), up: reach(1) };
};
const hinges = (up: number) =>
  `, supports: [{ panel: outer left, line: [[80, ${up}], [10, ${up}]] }, { panel: inner left, line: [[80, ${up}], [10, ${up}]] }]`;

test('a shelf on the middle of two sides ends at its hinges, and 5 mm past their ends; more would go through the sides', () => {
  const shelf = tents(hinges(18));
  expect(shelf).toEqual({ deepest: 0, corners: 4, along: [-5, 75], up: [0, 25] });
  // With a margin of its own it is as it says.
  const wide = tents(`${hinges(18)}, margin: 5`);
  expect([wide.along, wide.up]).toEqual([
    [-5, 75],
    [-5, 30],
  ]);
  expect(wide.deepest).toBeCloseTo(5, 6);
});

test('past the line of a support that ends there, it has its margin', () => {
  // The side of the inner tent ends at its ridge.
  expect(tents(hinges(28))).toMatchObject({ along: [-5, 75], up: [0, 30] });
});
