import type { Figure } from '../figure/figure.js';
import { cutErrors, HAND } from '../insight/hand/figure-tolerance.js';
import { type Robustness, robustnessOf } from '../insight/hand/robustness.js';
import { inUnits } from '../insight/hand/tolerance.js';
import { type Share, wilson } from '../insight/sensitivity/wilson.js';
import { outcomeOf } from '../insight/trials.js';
import { Scorer } from '../score/scorer.js';
import { stream } from '../search/random.js';
import { SEED } from '../study/defaults.js';
import type { Layout, Row } from '../study/row.js';
import type { ScoreRows } from '../study/score-log.js';
import { type Done, distance, measurable } from './change.js';
import type { Setting } from './settings.js';

/** What dummies of a remedy are worth when they are cut by hand, and how many of them work. */
export interface ByHand extends Robustness {
  readonly works: Share;
}

type Worth = Pick<ByHand, 'expected'>;

/** So many dummies: a share is known to about ± 15 % then. */
const DUMMIES = 40;
/** So much farther than it need a remedy is taken, mm or degrees. */
const FARTHER = [0.5, 1, 2, 3.5];
/** Going farther is worth it where a dummy cut by hand may be expected to be worth so much more. */
const GAIN = 0.1;
/** It goes no farther than it takes for this share of what can be gained. */
const MOST_OF_IT = 0.8;

/**
 * Cuts dummies of a candidate by hand: every candidate with the same errors, so that two compare fairly.
 * @param layout of the rows
 * @param score scores dummies of the figure: the dims of each, then its errors
 * @returns null where scoring ended early
 */
export async function cutRemedyByHand(
  figure: Figure,
  vector: Float64Array,
  layout: Layout,
  score: ScoreRows,
): Promise<ByHand | null> {
  const errors = cutErrors(figure.template(vector).cuts, HAND);
  const random = stream(SEED, 'a remedy cut by hand');
  const dummies = Array.from({ length: DUMMIES }, () => {
    const off = Float64Array.from(errors, () => random.normal());
    return Float64Array.of(...vector, ...inUnits(off, errors));
  });
  const rows: Row[] = [];
  for await (const row of score(dummies)) rows.push(row);
  if (rows.length < DUMMIES) return null;
  const works = rows.filter(({ outcome }) => outcome === 'works').length;
  return { ...robustnessOf(rows.map((row) => outcomeOf(layout, row))), works: wilson(works, DUMMIES) };
}

/** Scores dummies of one candidate in this thread, for a figure that no worker knows. Ctrl-C is heard in between. */
export function cutHere(figure: Figure, layout: Layout, stop: AbortSignal): ScoreRows {
  const scorer = new Scorer(figure);
  const dims = figure.free.length;
  return async function* (dummies) {
    const vector = dummies[0].slice(0, dims);
    const template = figure.template(vector);
    for (const dummy of dummies) {
      await new Promise((resume) => setImmediate(resume));
      if (stop.aborted) return;
      yield layout.rowOf(scorer.scoreCut(template, dummy.slice(dims), vector));
    }
  };
}

/**
 * The changes of a remedy taken farther, in steps that can be measured: what just works as drawn fails every other time when it is
 * cut by hand. Words stay, and so does what makes a part fit exactly.
 * @returns larger and larger ones; none where nothing in it can go farther
 */
export function fartherChanges(settings: readonly Setting[], done: readonly Done[]): Done[][] {
  const goes = ({ move, amount }: Done) =>
    move.kind === 'number' && !move.fitting.includes(amount) && !move.like.includes(amount);
  if (!done.some(goes)) return [];
  return FARTHER.map((more) =>
    done.map((each) => {
      const { move, amount } = each;
      return goes(each)
        ? { move, amount: measurable(settings, move, amount * (1 + more / distance(each))) }
        : each;
    }),
  );
}

/** Worth as much as can be: works in every hand, and does all that is wanted. */
const PERFECT = { expected: 1 };

/** Whether no form that goes farther still could change which is offered, since none can be worth more than 1. */
export const isSettled = (forms: readonly Worth[]): boolean =>
  worthGoingTo(forms) === worthGoingTo([...forms, PERFECT]);

/**
 * Which of a remedy's forms to offer.
 * @param forms what each is worth, the least change first
 * @returns its place: 0 unless to go farther is worth it, and then the least of those that gain most of what can be gained
 */
export function worthGoingTo(forms: readonly Worth[]): number {
  const gains = forms.map(({ expected }) => expected - forms[0].expected);
  const most = Math.max(...gains);
  return most < GAIN ? 0 : gains.findIndex((gain) => gain >= MOST_OF_IT * most);
}
