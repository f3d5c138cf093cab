import { Stopped } from '../insight/trials.js';
import { Scorer } from '../score/scorer.js';
import { Layout } from '../study/row.js';
import type { ScoreLog, ScoreRows } from '../study/score-log.js';
import { exploreVariant, type StartSearch } from './explore-variant.js';
import { measuresOf, type Run, runOf } from './measures.js';
import { mustWantTheSame, unequalConditions, type Variant } from './variants.js';
import { type Weighed, weigh } from './weigh.js';

/** Variants weighed against one another. */
export interface Comparison {
  readonly variants: readonly Variant[];
  readonly layouts: readonly Layout[];
  /** Variant by variant, seed by seed. */
  readonly runs: readonly Run[];
  readonly weighed: readonly Weighed[];
  readonly samples: number;
  readonly seeds: readonly number[];
  /** Sections of the figure files, beside the wants, in which the variants differ. */
  readonly unequal: readonly string[];
}

export interface CompareOptions {
  readonly samples: number;
  readonly seeds: readonly number[];
  readonly startSearch: StartSearch;
  readonly log: ScoreLog;
  /** Scores candidates of a variant, and dummies of them cut by hand (dims, then errors), and is done with it when `close` is called. */
  readonly scoring: (variant: Variant, layout: Layout) => { score: ScoreRows; close(): Promise<void> };
  readonly onScored?: (works: boolean) => void;
}

/**
 * Explores every variant with the same budget and the same seeds, and weighs them.
 * @returns null when the maker has stopped it
 * @throws InputError when their wants differ
 */
export async function compareVariants(
  variants: readonly Variant[],
  { samples, seeds, startSearch, log, scoring, onScored = () => {} }: CompareOptions,
): Promise<Comparison | null> {
  mustWantTheSame(variants);
  const layouts = variants.map(({ figure }) => new Layout(new Scorer(figure).score(figure.start)));
  const runs: Run[] = [];
  for (const [place, variant] of variants.entries()) {
    const layout = layouts[place];
    const { score, close } = scoring(variant, layout);
    try {
      for (const seed of seeds) {
        const run = { seed, samples, layout };
        const table = await exploreVariant(variant, place, run, startSearch, log, score, onScored);
        runs.push(await runOf(variant, place, seed, table, layout, score));
      }
    } catch (error) {
      if (error instanceof Stopped) return null;
      throw error;
    } finally {
      await close();
    }
  }
  const measures = measuresOf(runs, variants.length, layouts, variants[0].figure.wants);
  return {
    variants,
    layouts,
    runs,
    weighed: measures.map(weigh),
    samples,
    seeds,
    unequal: unequalConditions(variants),
  };
}
