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
