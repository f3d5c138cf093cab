import { expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { wilson } from '../../src/insight/sensitivity/wilson.js';
import { Scorer } from '../../src/score/scorer.js';
import { Layout } from '../../src/study/row.js';
import { distance } from '../../src/tune/change.js';
import {
  type ByHand,
  cutHere,
  cutRemedyByHand,
  fartherChanges,
  isSettled,
  worthGoingTo,
} from '../../src/tune/hand-room.js';
import type { Setting } from '../../src/tune/settings.js';
import { figureFrom, moveOf as move } from './support.js';

const forms = (...expected: number[]): ByHand[] =>
  expected.map((each) => ({ expected: each, works: wilson(1, 1), sound: wilson(1, 1) }));

test('a remedy goes farther only where its dummies are worth more, and then as little as gains most of it', () => {
  expect(worthGoingTo(forms(0.5))).toBe(0);
  expect(worthGoingTo(forms(0.5, 0.58, 0.59, 0.52))).toBe(0);
  expect(worthGoingTo(forms(0.5, 0.6, 0.81, 0.9, 0.7))).toBe(3);
  expect(worthGoingTo(forms(0.5, 0.6, 0.83, 0.9, 0.9))).toBe(2);
  expect(worthGoingTo(forms(0.5, 0.3))).toBe(0);
});

test('no form is tried that could not be chosen any more: none is worth more than 1', () => {
  expect(isSettled(forms(0.5))).toBe(false);
  // From here nothing gains a tenth.
  expect(isSettled(forms(0.92))).toBe(true);
  // More than four fifths of what can be gained, at the first step.
  expect(isSettled(forms(0.5, 0.92))).toBe(true);
  // Here the first step is chosen so far, and the second where a third is worth 1.
  expect(isSettled(forms(0.5, 0.85, 0.92))).toBe(false);
  expect(worthGoingTo(forms(0.5, 0.85, 0.92))).toBe(1);
  expect(worthGoingTo(forms(0.5, 0.85, 0.92, 1))).toBe(2);
});

const settings = [40, 30, 12].map((now) => ({ now, kind: 'number', unit: 'mm' }) as Setting);

test('lengths go on the way they went; words, and what fits exactly, stay', () => {
  const shorter = { move: move([{ setting: 0, by: 1 }]), amount: -3 };
  const both = { move: move([{ setting: 1, by: -2 }]), amount: 2 };
  const fits = { move: move([{ setting: 2, by: 1 }], { fitting: [1.3] }), amount: 1.3 };
  const word = { move: move([{ setting: 2, by: 1 }], { kind: 'word' }), amount: 1 };
  const farther = fartherChanges(settings, [shorter, both, fits, word]);
  expect(farther.map(([first]) => first.amount)).toEqual([-3.5, -4, -5, -6.5]);
  // Of a move that takes two for one, so much less.
  expect(farther.map(([, second]) => distance(second))).toEqual([4.5, 5, 6, 7.5]);
  for (const [, , third, fourth] of farther) expect([third, fourth]).toEqual([fits, word]);
  expect(fartherChanges(settings, [fits, word])).toEqual([]);
});

test('at the very edge of the leaf a side sticks out for every other hand, half a millimetre inside for one in ten', async () => {
  const shareOf = async (foot: number, stop = new AbortController().signal) => {
    const figure = compileFigure(
      figureFrom(
        `page: A5\nparts:\n  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: ${foot}, widths: 130 }\n`,
      ),
    );
    const { start } = figure;
    const layout = new Layout(new Scorer(figure).score(start));
    return (await cutRemedyByHand(figure, start, layout, cutHere(figure, layout, stop)))?.works.share;
  };
  // A leaf of A5 is 148 mm wide (ISO 216). By two errors of 0.3 mm a side ends 0.42 mm farther out or in.
  expect(await shareOf(18)).toBeGreaterThan(0.3);
  expect(await shareOf(18)).toBeLessThan(0.65);
  expect(await shareOf(17.5)).toBeGreaterThan(0.8);
  expect(await shareOf(17.5)).toBeLessThan(1);
  expect(await shareOf(18, AbortSignal.abort())).toBeUndefined();
});
