import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { readFigure } from '../../src/figure/read.js';
import { Scorer } from '../../src/score/scorer.js';
import { Sobol } from '../../src/search/sobol.js';
import { brokenInvariants } from './invariants.js';

/** Working candidates of a figure, among its first plain samples. */
function working(file: string, samples: number) {
  const figure = compileFigure(readFigure(file));
  const scorer = new Scorer(figure);
  const sobol = new Sobol(figure.free.length, 1);
  const unit = new Float64Array(figure.free.length);
  const found: Float64Array[] = [];
  for (let i = 0; i < samples; i++) {
    sobol.point(i, unit);
    const vector = Float64Array.from(figure.free, (dim, k) =>
      dim.kind === 'choice'
        ? Math.floor(unit[k] * dim.options.length)
        : dim.min + unit[k] * (dim.max - dim.min),
    );
    if (scorer.score(vector).works) found.push(vector);
  }
  return { scorer, found };
}

const ferryman = working('examples/ferryman.yaml', 150);

describe.each([
  ['ferryman', 150, ferryman],
  ['heron', 200, working('examples/heron.yaml', 200)],
])('%s', (_, samples, { scorer, found }) => {
  it('has between 1 % and 20 % of plain samples that work', () => {
    expect(found.length / samples).toBeGreaterThan(0.01);
    expect(found.length / samples).toBeLessThan(0.2);
  });

  it('moves as rigid panels on shared creases, between the pages, wherever it works', () => {
    for (const vector of found.slice(0, 5))
      expect(brokenInvariants(JSON.parse(JSON.stringify(scorer.poses(vector))))).toEqual([]);
  });
});

it('a panel that is nudged off its crease, tilted or pushed through a page breaks an invariant', () => {
  const { scorer, found } = ferryman;
  const spoilt = (spoil: (poses: number[][]) => void) => {
    const document = JSON.parse(JSON.stringify(scorer.poses(found[0])));
    spoil(document.frames[45].poses);
    return new Set(brokenInvariants(document).map(({ invariant }) => invariant));
  };
  expect(spoilt((poses) => (poses[2][3] += 0.01))).toContain('shared creases coincide');
  expect(spoilt((poses) => (poses[2][0] += 0.01))).toContain('panels are rigid');
  expect(spoilt((poses) => (poses[2][11] -= 200))).toContain('card stays between the pages');
  expect(spoilt((poses) => (poses[1][0] += 0.01))).toContain('the right page stands at the page angle');
});
