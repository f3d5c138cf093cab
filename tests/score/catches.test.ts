import { expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { catchesInWords } from '../../src/report/words/catch-words.js';
import { findCatches } from '../../src/score/catches.js';
import { Scorer } from '../../src/score/scorer.js';

test('every two panels that catch are told, in the order in which they do as the page closes', () => {
  const figure = compileFigure(
    parseFigure(
      `page: A5
parts:
  - { name: box, kind: parallel-fold, shape: box, at: 6, length: 118, glue: [27, 20] }
  - { name: layer, kind: parallel-fold, shape: layer, at: 90, length: 56, glue: [22, 22], widths: [25, 25], layers: [20, 8] }
`,
      'crowd.yaml',
    ),
  );
  const { clash } = new Scorer(figure).score(figure.start);
  const catches = findCatches(figure, figure.start);
  expect(catches.length).toBeGreaterThan(1);
  const starts = catches.map(({ startsAt }) => startsAt);
  expect(starts).toEqual(starts.toSorted((a, b) => b - a));
  // The score tells the deepest of them, and where the first begins.
  expect(Math.max(...catches.map(({ depth }) => depth))).toBeCloseTo(clash.deepest ?? 0, 6);
  expect(starts[0]).toBeCloseTo(clash.firstPageAngle ?? 0, 1);
  const lines = catchesInWords(catches);
  for (const { between } of catches) expect(lines.join('\n')).toContain(between.join(' and '));
});

test('the place of a catch counts up from the foot on either side, as a figure file does', () => {
  const figure = compileFigure(
    parseFigure(
      `page: A5
parts:
  - { name: near, kind: parallel-fold, at: 60, length: 90, glue: 20, widths: 45 }
  - { name: wide, kind: parallel-fold, at: 60, length: 90, glue: 40, widths: 44 }
`,
      'tents.yaml',
    ),
  );
  const { clash } = new Scorer(figure).score(figure.start);
  expect(clash.between).toEqual(['near right', 'wide right']);
  // The ridge of the wide tent goes through the side of the near one.
  const [near, wide] = clash.points?.map(([, up]) => up) ?? [];
  expect(near).toBeGreaterThan(0);
  expect(near).toBeLessThan(45);
  expect(wide).toBeCloseTo(44, 6);
});
