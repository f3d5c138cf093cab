import { expect, it } from 'vitest';
import { run } from './run.js';

// Rigid poses, outlines, locks, what catches and how deep, overhang, what stands off and the pile, from the figure file
// alone: nothing of src is used for them. Many more with `npm run oracle`.
it('random figures: a kernel written from the docs alone says the same of them', () => {
  const said: string[] = [];
  const { compared, catching, locking, disagreeing } = run(50, 1, 4, (line) => said.push(line));
  expect(disagreeing, said.join('\n')).toBe(0);
  expect(compared).toBeGreaterThan(40);
  expect(catching).toBeGreaterThan(20);
  expect(locking).toBeGreaterThan(1);
});
