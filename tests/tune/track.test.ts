import { expect, test } from 'vitest';
import { type Attempt, Track } from '../../src/tune/track.js';
import { moveOf } from './support.js';

const START = 30;
const move = moveOf([{ setting: 0, by: 1 }]);
const tracked = (...points: [amount: number, badness: number][]) => {
  const track = new Track(move, 1);
  for (const [amount, badness] of points) track.note(amount, { badness } as Attempt, false);
  return track;
};

test('a number is followed as long as one of the last two steps did good', () => {
  expect(tracked([1, 31]).leadsOn(2, START, false)).toBe(true);
  expect(tracked([1, 31], [2, 32]).leadsOn(3.5, START, false)).toBe(false);
  expect(tracked([1, 31], [2, 29]).leadsOn(3.5, START, false)).toBe(true);
  expect(tracked([1, 28], [2, 29], [3.5, 28]).leadsOn(6, START, false)).toBe(false);
  // The other side tells nothing of this one.
  expect(tracked([-1, 31], [-2, 32]).leadsOn(3.5, START, false)).toBe(true);
});

test('what stands beside all card is moved on, though a millimetre changes nothing', () => {
  const beside = tracked([1, START], [2, START], [3.5, START]);
  expect(beside.leadsOn(6, START, true)).toBe(true);
  expect(beside.leadsOn(6, START, false)).toBe(false);
  expect(tracked([1, START], [2, 31], [3.5, 32]).leadsOn(6, START, true)).toBe(false);
});
