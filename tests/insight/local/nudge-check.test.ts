import { expect, test } from 'vitest';
import type { Nudge } from '../../../src/insight/local/nudge.js';
import { checkedNudges } from '../../../src/insight/local/nudge-check.js';

/** A nudge whose slopes below and above are given; its change is their mean, as of a central difference. */
const nudge = (below: number, above = below): Nudge => ({
  change: (below + above) / 2,
  reason: null,
  from: 'both sides',
  sides: { below, above },
});
const none: Nudge = {
  change: null,
  reason: 'a choice has no +1',
  from: null,
  sides: { below: null, above: null },
};

/** Verdicts on nudges, given slopes of which the surrogate is sure. */
const verdicts = (nudges: Nudge[], slopes: number[], sure = slopes.map(() => true)) =>
  checkedNudges(nudges, slopes, sure).map(({ verdict }) => verdict);

test('a gradient of the same sign and within a factor of three bears a nudge out', () => {
  expect(verdicts([nudge(3), nudge(3), nudge(-3)], [1.1, 8.9, -2])).toEqual(['agrees', 'agrees', 'agrees']);
  expect(verdicts([nudge(3), nudge(3), nudge(-3)], [0.9, 9.1, 2])).toEqual(['differs', 'differs', 'differs']);
});

test('next to nothing on both sides is agreement, beside the largest nudge of the score', () => {
  expect(verdicts([nudge(10), nudge(0), nudge(0)], [10, 0.9, 1.1])).toEqual(['agrees', 'agrees', 'differs']);
  // Where no dim moves the score at all, round-off does not count.
  expect(verdicts([nudge(0), nudge(1e-9, -1e-9)], [0, 0])).toEqual(['agrees', 'agrees']);
});

test('a corner of the score is called one, whatever the gradient says', () => {
  // |x| at 0, and a ramp that ends here.
  expect(verdicts([nudge(-1, 1), nudge(2, 0), nudge(2, 1.5)], [0, 1, 2])).toEqual([
    'corner',
    'corner',
    'agrees',
  ]);
  // Found without a surrogate, too.
  expect(verdicts([nudge(-1, 1), nudge(2)], [Number.NaN, Number.NaN])).toEqual(['corner', null]);
});

test('where the networks differ in sign nothing is said of the nudge', () => {
  expect(verdicts([nudge(3), nudge(3)], [-0.1, 2], [false, false])).toEqual(['unsure', 'agrees']);
});

test('what has no nudge or no gradient is not judged, and the nudge stays what it was', () => {
  const [choice, known] = checkedNudges([none, nudge(2)], [Number.NaN, 2], [false, true]);
  expect(choice).toEqual({ ...none, surrogate: null, verdict: null });
  expect(known).toEqual({ ...nudge(2), surrogate: 2, verdict: 'agrees' });
});
