import { expect, test } from 'vitest';
import { contenders, finalists } from '../../../src/insight/hand/contenders.js';

const upTo = (count: number) => [...Array(count).keys()];
/** One error of 1 mm as its standard deviation. */
const ONE = [{ name: 'a length', sigma: 1 }];

/** Candidate k shuts where its error is within `room(k)` mm, and is then worth 1. */
function cutter(room: (candidate: number) => number) {
  const asked: number[] = [];
  const cut = async (dummies: readonly { candidate: number; errors: Float64Array }[]) =>
    dummies.map(({ candidate, errors: [error] }) => {
      asked.push(error);
      const sound = Math.abs(error) < room(candidate);
      return { sound, worth: sound ? 1 : 0 };
    });
  return { asked, cut };
}

test('cut by hand are the first of the ranking, the own one, and others evenly from all that work', () => {
  const ranking = upTo(2400).reverse();
  const found = contenders(ranking, 7, (candidate) => candidate, 4000);
  expect(found).toHaveLength(33);
  expect(found.slice(0, 9)).toEqual([2399, 2398, 2397, 2396, 2395, 2394, 2393, 2392, 7]);
  // The middles of 24 equal shares, from the greatest worth down.
  expect(found.slice(9)).toEqual(upTo(24).map((k) => 2349 - 100 * k));
});

test('a small study has few of them, and each is there once', () => {
  expect(contenders([4, 2], 2, () => 1, 600)).toEqual([4, 2]);
  expect(contenders(upTo(100), null, () => 1, 300)).toHaveLength(5);
  expect(contenders([], 0, () => 1, 4000)).toEqual([]);
});

test('those whose dummies shut more often stay: 0.68 and 0.95 of them, beside a tenth', async () => {
  // Within 1 and 2 standard deviations (any table of the normal distribution), and within 0.1257: 10 %.
  const rooms = new Map([
    [11, 2],
    [17, 1],
  ]);
  const { asked, cut } = cutter((candidate) => rooms.get(candidate) ?? 0.1257);
  const left = await finalists(upTo(30), () => ONE, cut, 2, 1);
  expect(left).toEqual([11, 17]);
  // Five of each, then seven more of the twelve that were left: all with the same errors.
  expect(asked).toHaveLength(30 * 5 + 12 * 7);
  expect(new Set(asked).size).toBe(12);
});

test('where no more contend than are wanted, none is cut for it', async () => {
  const { asked, cut } = cutter(() => 1);
  expect(await finalists([5, 3], () => ONE, cut, 8, 1)).toEqual([5, 3]);
  expect(asked).toEqual([]);
});
