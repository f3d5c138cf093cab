import { expect, test } from 'vitest';
import type { Done } from '../../src/tune/change.js';
import { differentIdeas } from '../../src/tune/ideas.js';
import type { Setting } from '../../src/tune/settings.js';
import { moveOf } from './support.js';

const settings = [
  { place: ['parts', 0, 'slit', 'line', 0, 0] },
  { place: ['parts', 0, 'slit', 'line', 1, 0] },
  { place: ['parts', 1, 'panels', 0] },
  { place: ['parts', 1, 'panels', 1] },
] as unknown as Setting[];
const change = (amount: number, ...moved: number[]): Done => ({
  move: moveOf(moved.map((setting) => ({ setting, by: 1 }))),
  amount,
});
const way = (...done: Done[]) => ({
  done,
  cost: { amount: done.reduce((sum, { amount }) => sum + Math.abs(amount), 0) },
});

test('a slit moved as a whole, and at one end alone, are one idea: the cheaper is told', () => {
  const whole = way(change(2.5, 0, 1));
  expect(differentIdeas([whole, way(change(3, 0)), way(change(3.5, 1))], settings)).toEqual([whole]);
});

test('a side made wider, narrower, and the other side, are three ideas', () => {
  const all = [way(change(3, 2)), way(change(-3, 2)), way(change(3, 3))];
  expect(differentIdeas(all, settings)).toEqual(all);
});

test('the same with one change more is another idea only where it spares something of the first', () => {
  const alone = way(change(6, 2));
  const spared = way(change(3, 2), change(2, 3));
  expect(differentIdeas([alone, spared, way(change(6, 2), change(2, 3))], settings)).toEqual([alone, spared]);
});
