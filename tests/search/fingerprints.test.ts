import { expect, test } from 'vitest';
import { Fingerprints } from '../../src/search/fingerprints.js';
import { stream } from '../../src/search/random.js';

test('remembers what a Set would, also numbers that share their low or high bits', () => {
  const random = stream(3, 'prints');
  const prints = new Fingerprints();
  const set = new Set<number>();
  const some = [0, 1, 2 ** 53 - 1, 2 ** 32, 2 ** 52, ...Array.from({ length: 3000 }, (_, i) => 1024 * i + 5)];
  for (let i = 0; i < 20_000; i++) some.push(Math.floor(random.next() * 2 ** 53), random.below(3000));
  for (const print of some) {
    expect(prints.has(print)).toBe(set.has(print));
    prints.add(print);
    set.add(print);
  }
  expect(prints.size).toBe(set.size);
  for (const print of set) expect(prints.has(print)).toBe(true);
  for (let i = 0; i < 2000; i++) expect(prints.has(2 ** 40 + 3 * i)).toBe(set.has(2 ** 40 + 3 * i));
});
