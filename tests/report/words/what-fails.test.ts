import { expect, it } from 'vitest';
import { compileFigure } from '../../../src/figure/figure.js';
import { parseFigure } from '../../../src/figure/text/source.js';
import { whatFails } from '../../../src/report/words/what-fails.js';
import { Scorer } from '../../../src/score/scorer.js';

const TENT = `page: A5
dims: { side: { from: 10, to: 60 } }
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: side - 20, glue: [30, 30], widths: [side, side] }
`;

it('dummies that cannot be built for one reason read alike, but keep the line of the file', () => {
  const figure = compileFigure(parseFigure(TENT, 'tent.yaml'));
  const scorer = new Scorer(figure);
  const said = [11, 12.5].map((side) => whatFails(scorer.score(Float64Array.of(side))));
  expect(said[0]).toBe(said[1]);
  expect(said[0]).toMatch(/^cannot be built: .*…/);
  expect(said[0]).toContain('(line 4)');
  expect(whatFails(scorer.score(Float64Array.of(45)))).toBe(null);
});
