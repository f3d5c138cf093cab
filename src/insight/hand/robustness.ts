import { type Share, wilson } from '../sensitivity/wilson.js';

/** How one dummy came out, or one candidate as drawn. */
export interface CutOutcome {
  /** It shuts and opens, and breaks no other limit, whatever it does of what is wanted. */
  readonly sound: boolean;
  /** Its desirability; 0 where it is not sound. */
  readonly worth: number;
}

/** What dummies of one candidate are worth. */
export interface Robustness {
  /** The share that shuts and opens without a jam, or any other limit broken. */
  readonly sound: Share;
  /** The mean desirability of all of them, those that fail counted 0: what ranks. */
  readonly expected: number;
}

/** @param outcomes of the dummies alone, one or more */
export function robustnessOf(outcomes: readonly CutOutcome[]): Robustness {
  const count = outcomes.length;
  return {
    sound: wilson(outcomes.filter(({ sound }) => sound).length, count),
    expected: outcomes.reduce((sum, { worth }) => sum + worth, 0) / count,
  };
}
