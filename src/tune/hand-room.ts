import type { Figure } from '../figure/figure.js';
import { cutErrors, HAND } from '../insight/hand/figure-tolerance.js';
import { type Robustness, robustnessOf } from '../insight/hand/robustness.js';
import { inUnits } from '../insight/hand/tolerance.js';
import { type Share, wilson } from '../insight/sensitivity/wilson.js';
import type { Scorer } from '../score/scorer.js';
import { stream } from '../search/random.js';
import { SEED } from '../study/defaults.js';
import { type Done, distance, measurable } from './change.js';
import type { Setting } from './settings.js';

/** What dummies of a remedy are worth when they are cut by hand, and how many of them work. */
export interface ByHand extends Robustness {
  readonly works: Share;
}

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
 * @param scorer of the figure
 * @param stop what is asked when it is aborted, or is while it goes on, is not known: null
 */
export async function cutRemedyByHand(
  figure: Figure,
  scorer: Scorer,
  vector: Float64Array,
  stop: AbortSignal,
): Promise<ByHand | null> {
  const template = figure.template(vector);
  const errors = cutErrors(template.cuts, HAND);
  const random = stream(SEED, 'a remedy cut by hand');
  const cards = [];
  for (let dummy = 0; dummy < DUMMIES; dummy++) {
    const off = Float64Array.from(errors, () => random.normal());
    cards.push(scorer.scoreCut(template, inUnits(off, errors), vector));
    // Ctrl-C is heard in between.
    await new Promise((resume) => setImmediate(resume));
    if (stop.aborted) return null;
  }
  const outcomes = cards.map(({ cannotBuild, violation, desirability }) => {
    const sound = cannotBuild === null && violation === 0;
    return { sound, worth: sound ? (desirability ?? 0) : 0 };
  });
  return { ...robustnessOf(outcomes), works: wilson(cards.filter(({ works }) => works).length, DUMMIES) };
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

/**
 * Which of a remedy's forms to offer.
 * @param forms what each is worth, the least change first
 * @returns its place: 0 unless to go farther is worth it, and then the least of those that gain most of what can be gained
 */
export function worthGoingTo(forms: readonly ByHand[]): number {
  const gains = forms.map(({ expected }) => expected - forms[0].expected);
  const most = Math.max(...gains);
  return most < GAIN ? 0 : gains.findIndex((gain) => gain >= MOST_OF_IT * most);
}
