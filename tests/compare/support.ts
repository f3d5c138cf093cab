import { type Comparison, compareVariants } from '../../src/compare/compare.js';
import { type Variant, variantsOfFiles } from '../../src/compare/variants.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { Scorer } from '../../src/score/scorer.js';
import { Search } from '../../src/search/search.js';
import { ScoreLog } from '../../src/study/score-log.js';

export const SEEDS = [1, 2, 3, 4, 5];

export const variants = (...texts: string[]): Variant[] =>
  variantsOfFiles(texts.map((text, i) => parseFigure(text, `${'abcdef'[i]}.yaml`)));

/** Compares variants in this thread. */
export async function compared(all: readonly Variant[], samples = 70, seeds = SEEDS): Promise<Comparison> {
  const comparison = await compareVariants(all, {
    samples,
    seeds,
    startSearch: (free, seed, budget) => new Search(free, { seed, budget }),
    log: new ScoreLog(null),
    scoring({ figure }, layout) {
      const scorer = new Scorer(figure);
      return {
        async *score(batch) {
          const dims = figure.free.length;
          for (const asked of batch) {
            const vector = asked.slice(0, dims);
            const cut = asked.length > dims;
            yield layout.rowOf(
              cut
                ? scorer.scoreCut(figure.template(vector), asked.slice(dims), vector)
                : scorer.score(vector),
            );
          }
        },
        close: async () => {},
      };
    },
  });
  if (comparison === null) throw new Error('nobody has stopped it');
  return comparison;
}

/**
 * A tent whose ridge stands at most as high as its sides are wide, and that fits the leaf of A5 where foot and side
 * come to 148 mm at most.
 */
export const TENT = `page: A5
dims:
  foot: { from: 20, to: 60 }
  slack: { from: 5, to: 60 }
  side: foot + slack
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [foot, foot], widths: [side, side] }
wants:
  - { name: stands, kind: rise, panel: tent left, least: 20 }
  - { name: small, kind: travel, panel: tent left, point: [0, side], most: 150 }
limits: { flatWhenOpen: no }
`;
