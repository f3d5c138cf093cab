import type { FreeDim } from '../figure/dims.js';
import type { Figure } from '../figure/figure.js';
import { type CandidateInsight, insightInto } from './figure-insight.js';
import { type GlobalSensitivity, globalSensitivity } from './figure-sensitivity.js';
import { cutByHand, cutErrors, HAND, type Hand } from './figure-tolerance.js';
import type { FigureTrials } from './figure-trials.js';
import { variablesOf } from './figure-variables.js';
import type { Share } from './sensitivity/wilson.js';
import { rankedByHand, rankedStudy } from './study-ranking.js';
import type { Layout } from './study-row.js';
import type { StudyTable } from './study-table.js';

/*
 * How many dummies are scored for this, all told about as many again as the study itself has scored: three in five of
 * these for the indices; one in five to cut the best by hand; and for the best of those, once the study is long enough
 * to deserve it, what it takes to walk its dims and cuts, which hangs on the figure and not on the study.
 */
const FOR_INDICES = 0.6;
const FOR_ROBUSTNESS = 0.2;
/** So many of the best are cut by hand. */
const CUT = 8;
/** Fewer scored candidates than this deserve no more than to be ranked. */
export const LONG_ENOUGH = 1000;
/** More dummies of one candidate than this tell nothing that matters. */
const MOST_DUMMIES = 400;

/** What a study tells of its figure beyond its candidates' scores: what a maker asks once there is something to cut. */
export interface StudyInsight {
  readonly hand: Hand;
  readonly free: readonly FreeDim[];
  readonly global: GlobalSensitivity;
  /** The best that work, best first before robustness: the share of their hand-cut dummies that still work. */
  readonly robust: readonly { readonly candidate: number; readonly works: Share }[];
  /** The best of these, looked into; null where none works, or where the study is short. */
  readonly best: { readonly candidate: number; readonly insight: CandidateInsight } | null;
  /** How many dummies were scored for all this. */
  readonly runs: number;
}

/**
 * Measures what drives the scores of a figure, how robust the best candidates of its study are, and what the best asks of
 * its maker. The same for any number of workers.
 * @throws Stopped
 */
export async function studyInsight(
  trials: FigureTrials,
  figure: Figure,
  table: StudyTable,
  layout: Layout,
  seed: number,
): Promise<StudyInsight> {
  const variables = variablesOf(figure);
  const budget = Math.floor(FOR_INDICES * table.size);
  const global = await globalSensitivity(trials.scores, variables, seed, budget);
  const ranking = rankedStudy(table, layout);
  const working = ranking.slice(0, CUT).filter((candidate) => table.outcome(candidate) === 'works');
  const short = table.size < LONG_ENOUGH;
  const dummies = Math.min(MOST_DUMMIES, Math.floor((FOR_ROBUSTNESS * table.size) / CUT));
  const robust: { candidate: number; works: Share }[] = [];
  for (const candidate of short ? [] : working) {
    const vector = table.vector(candidate).slice();
    const errors = cutErrors(figure.template(vector).cuts, HAND);
    const { works } = await cutByHand(errors, trials.cutVerdicts(vector), dummies, seed);
    robust.push({ candidate, works });
  }
  const desirability = (candidate: number) => layout.desirability(table.figures(candidate));
  const [first] = rankedByHand(working, desirability, robust);
  const asked = { hand: HAND, dummies, seed };
  const best =
    short || first === undefined
      ? null
      : { candidate: first, insight: await insightInto(trials, figure, table.vector(first).slice(), asked) };
  return { hand: HAND, free: figure.free, global, robust, best, runs: trials.count };
}
