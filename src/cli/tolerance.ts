import { availableParallelism } from 'node:os';
import type { Figure } from '../figure/figure.js';
import type { FigureSource } from '../figure/text/source.js';
import { handInsight } from '../insight/figure-insight.js';
import { cutByHand, cutErrors, HAND, type Hand } from '../insight/hand/figure-tolerance.js';
import { robustnessOf } from '../insight/hand/robustness.js';
import { localInsights } from '../insight/local/figure-local.js';
import { FigureTrials } from '../insight/trials.js';
import { insightAsJson } from '../report/words/insight-json.js';
import { insightInWords } from '../report/words/insight-words.js';
import type { Scorecard } from '../score/scorecard.js';
import { SEED } from '../study/defaults.js';
import { figurePool } from '../study/figure-pool.js';
import { Layout } from '../study/row.js';
import { scoresOf } from '../study/scores.js';

export interface ToleranceOptions {
  sigmaMm?: number;
  sigmaDegrees?: number;
}

/** Enough to know the share that works to ± 5 %. */
const DUMMIES = 400;

/** Cuts dummies of one candidate by hand, walks its safe ranges and nudges its dims: in words, and for `--json`. */
export async function toleranceOf(
  source: FigureSource,
  figure: Figure,
  vector: Float64Array,
  card: Scorecard,
  { sigmaMm = HAND.mm, sigmaDegrees = HAND.degrees }: ToleranceOptions,
): Promise<{ words: string[]; json: object }> {
  const hand: Hand = { mm: sigmaMm, degrees: sigmaDegrees };
  const layout = new Layout(card);
  // Ctrl-C ends the program at once: there is nothing to keep.
  const never = new AbortController().signal;
  const pool = figurePool(source, availableParallelism());
  const trials = new FigureTrials(pool, layout, never);
  try {
    const errors = cutErrors(figure.template(vector).cuts, hand);
    const { verdicts, outcomes } = trials.cutDummies(vector);
    const cutting = await cutByHand(errors, verdicts, DUMMIES, SEED);
    const robust = robustnessOf(outcomes.slice(1));
    const cut = await handInsight(trials, figure, vector, hand, cutting);
    // One candidate teaches no surrogate: of its nudges only the corners are told.
    const [local] = await localInsights(trials, figure, [vector], async () => null);
    const insight = { ...cut, ...local, robust };
    const what = [insight, hand, figure.free, vector, scoresOf(layout)] as const;
    return { words: insightInWords(...what, card.limits), json: insightAsJson(...what) };
  } finally {
    await pool.close();
  }
}
