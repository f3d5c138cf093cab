import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { patterns } from '../../src/figure/patterns/index.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { Scorer } from '../../src/score/scorer.js';
import { Sobol } from '../../src/search/sobol.js';

const text = readFileSync(new URL('../../examples/carrier.yaml', import.meta.url), 'utf8');

/** Functions of arithmetic, but for what asks for a place of the figure. */
const FUNCTIONS = /\b(?:sin|cos|tan|asin|acos|atan|sqrt|min|max|abs)\s*\(/;

describe('the water carrier, who has a yoke, a slot and a leg', () => {
  const figure = compileFigure(parseFigure(text, 'carrier.yaml'));

  it('is written with + − × ÷ alone', () => {
    expect(text).not.toMatch(FUNCTIONS);
    for (const kind of ['counter-fold', 'slot', 'plate', 'link', 'pivot', 'tongue'])
      expect(text).toContain(`kind: ${kind}`);
  });

  it('works as it starts, and in a good part of its ranges', () => {
    const scorer = new Scorer(figure);
    expect(scorer.score(figure.start).works).toBe(true);
    const sobol = new Sobol(figure.free.length, 1);
    const count = 32;
    const works = Array.from({ length: count }, (_, i) => {
      const unit = sobol.point(i);
      return scorer.score(
        Float64Array.from(figure.free, (dim, k) =>
          dim.kind === 'choice' ? 0 : dim.min + unit[k] * (dim.max - dim.min),
        ),
      ).works;
    }).filter(Boolean).length;
    expect(works / count).toBeGreaterThan(0.2);
  });
});

it.each(patterns)('the pattern $name is written with + − × ÷ alone', (pattern) => {
  expect(pattern.text).not.toMatch(FUNCTIONS);
});
