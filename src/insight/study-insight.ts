import type { FreeDim } from '../figure/dims.js';
import type { Figure } from '../figure/figure.js';
import type { HeldOutError } from '../search/held-out.js';
import { tensorBackend } from '../search/tensor-backend.js';
import { Space } from '../search/variables.js';
import { variablesOf } from '../study/figure-variables.js';
import { rankedByHand, rankedStudy } from '../study/ranking.js';
import type { Layout } from '../study/row.js';
import { scoresOf, WORKS_PLACE } from '../study/scores.js';
import type { StudyTable } from '../study/table.js';
import { type HandInsight, handInsight } from './figure-insight.js';
import { contenders, finalists } from './hand/contenders.js';
import { cutByHand, cutErrors, HAND, type Hand } from './hand/figure-tolerance.js';
import { type Robustness, robustnessOf } from './hand/robustness.js';
import type { CutError, CuttingTolerance } from './hand/tolerance.js';
import { type LocalInsight, localInsights } from './local/figure-local.js';
import { type GlobalSensitivity, scoresToLearn, withSurrogate } from './sensitivity/figure-sensitivity.js';
import { FOR_INDICES, globalRuns } from './sensitivity/global-runs.js';
import type { Share } from './sensitivity/wilson.js';
import { type ScoredPoint, ScoreSurrogate } from './surrogate-scores.js';
import { type FigureTrials, Stopped } from './trials.js';

/*
 * How many dummies are scored for this, all told about as many as the study itself has scored, once that is a few thousand: one in five
 * of these to cut the best by hand, and up to some 250 to find out which these are; then, once the study is long enough to
 * deserve it, what it takes to walk the cuts and the dims of the very best, which hangs on the figure and not on the study; what
 * is left for the indices, three in five at most; and what these leave for the dims of the next best.
 */
/** More for the indices only narrow intervals that are narrow already. */
const MOST_FOR_INDICES = 30_000;
/** As many they have of any study, up to their share of it: with fewer there would often be none. */
const LEAST_FOR_INDICES = 1500;
/** A dim of the best is walked and nudged by some so many. */
const FOR_A_DIM = 20;
const FOR_ROBUSTNESS = 0.2;
/** So many are cut by hand at length. */
const CUT = 8;
/** Fewer scored candidates than this deserve no more than to be ranked. */
export const LONG_ENOUGH = 1000;
/** More dummies of one candidate than this tell nothing that matters. */
const MOST_DUMMIES = 400;
/** A surrogate learns from no more plain samples than this, and from no more of what evolution found. */
const MOST_LEARNT = 10_000;
/** More plain samples than this are not kept for trends and curves. */
const MOST_PLAIN = 2000;

/** What a study tells of its figure beyond its candidates' scores: what a maker asks once there is something to cut. */
export interface StudyInsight {
  readonly hand: Hand;
  readonly free: readonly FreeDim[];
  readonly global: GlobalSensitivity;
  /** Those that do best cut by hand, as a first look had them: the share of their hand-cut dummies that still work. */
  readonly robust: readonly ({ readonly candidate: number; readonly works: Share } & Partial<Robustness>)[];
  /** How exact the best of these must be cut; null where none works, or where the study is short. */
  readonly best: { readonly candidate: number; readonly insight: HandInsight } | null;
  /** The first of the same candidates, the best first: how far their dims may go, and which way to nudge them. */
  readonly local: readonly (LocalInsight & { readonly candidate: number })[];
  /** What the nudges were checked with, and some indices taken from; null where there was no need. */
  readonly surrogate: {
    /** Which backend of TensorFlow.js, and why. */
    readonly why: string;
    /** How many dummies it has learnt. */
    readonly learnt: number;
    /** For each score, as in `scoresOf`. */
    readonly heldOut: readonly (HeldOutError | null)[];
  } | null;
  /** Plain samples that were scored for the indices: dim values, and all scores, null where not computed. */
  readonly plain: readonly {
    readonly vector: readonly number[];
    readonly scores: readonly (number | null)[];
  }[];
  /** How many dummies were scored for all this. */
  readonly runs: number;
}

/**
 * Measures what drives the scores of a figure, how robust the best candidates of its study are, and what they ask of
 * their maker. The same for any number of workers.
 * @param onRobust told how robust the best are as soon as that is known: what is measured first, as it is what ranks
 * @throws Stopped
 */
export async function studyInsight(
  trials: FigureTrials,
  figure: Figure,
  table: StudyTable,
  layout: Layout,
  seed: number,
  onRobust: (robust: StudyInsight['robust']) => void = () => {},
): Promise<StudyInsight> {
  const ranking = rankedStudy(table, layout);
  const short = table.size < LONG_ENOUGH;
  const works = (candidate: number) => table.outcome(candidate) === 'works';
  const desirability = (candidate: number) => layout.desirability(table.numbers(candidate));
  const contending = short
    ? []
    : contenders(ranking.filter(works), table.hasOwn ? 0 : null, desirability, table.size);
  const errorsOf = (candidate: number) => cutErrors(figure.template(table.vector(candidate)).cuts, HAND);
  const working = await finalists(
    contending,
    errorsOf,
    (dummies) =>
      trials.outcomes(
        dummies.map(({ candidate, errors }) => Float64Array.of(...table.vector(candidate), ...errors)),
      ),
    CUT,
    seed,
  );
  const dummies = Math.min(MOST_DUMMIES, Math.floor((FOR_ROBUSTNESS * table.size) / CUT));
  const cut = await cutEach(trials, table, errorsOf, working, dummies, seed);
  const robust = cut.map(({ candidate, cutting, sound, expected }) => ({
    candidate,
    works: cutting.works,
    sound,
    expected,
  }));
  onRobust(robust);
  const order = rankedByHand(working, desirability, robust);
  const vectors = order.map((candidate) => table.vector(candidate).slice());
  const first = cut.find(({ candidate }) => candidate === order[0]);
  const best = first ? await handInsight(trials, figure, vectors[0], HAND, first.cutting) : null;

  const variables = variablesOf(figure);
  const space = new Space(variables);
  const studied = studiedPoints(table, layout, space);
  const left = table.size - trials.count - FOR_A_DIM * variables.length;
  const budget = Math.min(
    MOST_FOR_INDICES,
    Math.floor(FOR_INDICES * table.size),
    Math.max(LEAST_FOR_INDICES, left),
  );
  const plain = studied.filter((point) => point.plain).length;
  const runs = await globalRuns(trials.scores, variables, seed, budget, plain);
  const points = [...studied, ...runs.points];
  const wanted = scoresToLearn(runs.indices, points);
  const needed = wanted.length > 0 || working.length > 0;
  // It learns while dims are walked.
  const learning = needed ? learnt(space, points, seed, trials.stop) : null;
  const slopes = async () => (await learning)?.scores ?? null;
  const [surrogate, locals] = await Promise.all([
    learning,
    localsOf(trials, figure, vectors, slopes, table.size),
  ]);
  return {
    hand: HAND,
    free: figure.free,
    global: await withSurrogate(runs, surrogate?.scores ?? null, wanted, seed),
    robust,
    best: best === null ? null : { candidate: order[0], insight: best },
    local: locals.map((local, place) => ({ candidate: order[place], ...local })),
    surrogate:
      surrogate === null
        ? null
        : { why: surrogate.why, learnt: surrogate.scores.learnt, heldOut: surrogate.scores.heldOut },
    plain: runs.points
      .filter((point) => point.plain)
      .slice(0, MOST_PLAIN)
      .map(({ unit, scores }) => ({
        vector: Array.from(space.toValues(unit)),
        scores: Array.from(scores, (score) => (Number.isNaN(score) ? null : score)),
      })),
    runs: trials.count,
  };
}

/** Of the best candidate, and then of as many of the next as are done with within `most` runs in all. */
async function localsOf(
  trials: FigureTrials,
  figure: Figure,
  vectors: readonly Float64Array[],
  surrogate: () => Promise<ScoreSurrogate | null>,
  most: number,
): Promise<LocalInsight[]> {
  const before = trials.count;
  const first = await localInsights(trials, figure, vectors.slice(0, 1), surrogate);
  const each = trials.count - before;
  const more = Math.max(0, Math.floor((most - trials.count) / Math.max(1, each)));
  return [...first, ...(await localInsights(trials, figure, vectors.slice(1, 1 + more), surrogate))];
}

/** What the study itself has scored, as food for a surrogate: its plain samples, and what it found last. */
function studiedPoints(table: StudyTable, layout: Layout, space: Space): ScoredPoint[] {
  const plain = table.spread().slice(0, MOST_LEARNT);
  const found = table.where((candidate) => !table.isSpread(candidate)).slice(-MOST_LEARNT);
  const candidates = [...plain, ...found];
  const columns = scoresOf(layout).map((score) => score.of(table, candidates));
  return candidates.map((candidate, row) => ({
    unit: space.toUnit(table.vector(candidate)),
    scores: Float64Array.from(columns, (column) => column[row]),
    plain: row < plain.length,
    group: candidate,
  }));
}

/** @throws Stopped */
async function learnt(space: Space, points: readonly ScoredPoint[], seed: number, stop: AbortSignal) {
  const backend = await tensorBackend();
  try {
    const scores = await ScoreSurrogate.learn(backend, space, points, [WORKS_PLACE], seed, stop);
    return { why: backend.why, scores };
  } catch (error) {
    throw stop.aborted ? new Stopped('the learning was stopped') : error;
  }
}

/** Cuts dummies of each of some candidates by hand. */
async function cutEach(
  trials: FigureTrials,
  table: StudyTable,
  errorsOf: (candidate: number) => CutError[],
  candidates: readonly number[],
  dummies: number,
  seed: number,
): Promise<({ candidate: number; cutting: CuttingTolerance } & Robustness)[]> {
  const cut: ({ candidate: number; cutting: CuttingTolerance } & Robustness)[] = [];
  for (const candidate of candidates) {
    const vector = table.vector(candidate).slice();
    const { verdicts, outcomes } = trials.cutDummies(vector);
    const cutting = await cutByHand(errorsOf(candidate), verdicts, dummies, seed);
    // The first is the candidate as drawn.
    cut.push({ candidate, cutting, ...robustnessOf(outcomes.slice(1)) });
  }
  return cut;
}
