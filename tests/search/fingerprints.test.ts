import { expect, test } from 'vitest';
import { Fingerprints } from '../../src/search/fingerprints.js';
import { stream } from '../../src/search/random.js';

test('remembers what a Set would, also numbers that share their low or high bits', () => {
  const random = stream(3, 'prints');
  const prints = new Fingerprints();
  const set = new Set<number>();
  const some = [0, 1, 2 ** 53 - 1, 2 ** 32, 2 ** 52, ...Array.from({ length: 3000 }, (_, i) => 1024 * i + 5)];
  for (let i = 0; i < 20_000; i++) some.push(Math.floor(random.next() * 2 ** 53), random.below(3000));
  const wrong: number[] = [];
  for (const print of some) {
    if (prints.has(print) !== set.has(print)) wrong.push(print);
    prints.add(print);
    set.add(print);
  }
  expect(wrong).toEqual([]);
  expect(prints.size).toBe(set.size);
  const others = Array.from({ length: 2000 }, (_, i) => 2 ** 40 + 3 * i);
  expect([...set, ...others].filter((print) => prints.has(print) !== set.has(print))).toEqual([]);
});
