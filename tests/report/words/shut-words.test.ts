import { expect, test } from 'vitest';
import { shutInWords } from '../../../src/report/words/shut-words.js';

const stackOf = (count: number) => {
  const stack = Array.from({ length: count }, (_, i) => `wall ${i + 1}`);
  return shutInWords({ stack, pileAt: null, overhangs: [] }).join('\n');
};

test('a pile is told panel by panel; of a very high one both ends are, and how many lie between', () => {
  expect(stackOf(3)).toMatch(/3 panels +from the left page up: wall 1, wall 2, wall 3$/m);
  expect(stackOf(41)).not.toContain('more');
  const high = stackOf(500);
  expect(high).toMatch(/from the left page up: wall 1, .*, wall 20, … 460 more …, wall 481, .*, wall 500$/m);
  expect(high).not.toContain('wall 21,');
});
