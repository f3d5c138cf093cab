import { expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { Scorer } from '../../src/score/scorer.js';

test('a point that stays below the page rises by less than nothing', () => {
  const source = parseFigure(
    `page: A5
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [40, 40], widths: [60, 60], outlines: { left: [[0, -12], [60, -12], [60, 60], [0, 60]] } }
wants:
  - { name: root, kind: rise, panel: tent left, point: [30, -10], from: 91, to: 90, most: 0 }
limits: {}
opening: { step: 1 }
`,
    'tent.yaml',
  );
  const figure = compileFigure(source);
  const [root] = new Scorer(figure).score(figure.start).wants;
  // Feet 40 mm from the gutter on pages square to each other: 10 mm under its foot the wall goes on below the left page, by
  // the sine of its angle there: 45° and that of the triangle of both feet and the ridge. At 91° it is a little less.
  const below = (pageAngle: number) => {
    const half = (pageAngle * Math.PI) / 360;
    return 10 * Math.sin(Math.PI / 2 - half + Math.acos((40 * Math.sin(half)) / 60));
  };
  expect(root.value).toBeCloseTo(-Math.min(below(91), below(90)), 6);
  expect(root.met).toBe(true);
});
