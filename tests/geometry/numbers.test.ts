import { expect, test } from 'vitest';
import { numbers, zeros } from '../../src/geometry/numbers.js';

test('arrays of numbers start at 0 and share nothing, however many are made', () => {
  const made = Array.from({ length: 2000 }, (_, i) => zeros(i % 50));
  for (const [i, array] of made.entries()) array.fill(i);
  for (const [i, array] of made.entries()) {
    expect(array.length).toBe(i % 50);
    expect(array.every((value) => value === i)).toBe(true);
  }
  expect(zeros(50).every((value) => value === 0)).toBe(true);
});

test('an array may be longer than a slab, or empty', () => {
  expect(zeros(100_000).length).toBe(100_000);
  expect(zeros(0).length).toBe(0);
});

test('a copy goes its own way', () => {
  const drawn = [1, 2, 3];
  const copy = numbers(drawn);
  drawn[0] = 9;
  expect(Array.from(copy)).toEqual([1, 2, 3]);
});
