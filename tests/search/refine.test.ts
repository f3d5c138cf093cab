import { mean } from 'simple-statistics';
import { expect, it } from 'vitest';
import { stream } from '../../src/search/random.js';
import { refiner } from '../../src/search/refine.js';
import { Space } from '../../src/search/variables.js';
import { real, scored } from '../support/search-problems.js';

it('makes points near the members of the front, and more where it has a gap', () => {
  // A front along x, with y the same for all: a gap lies between x = 0.45 and 0.75.
  const space = new Space([real('x', 0, 1), real('y', 0, 1)]);
  const at = [0.4, 0.41, 0.42, 0.43, 0.44, 0.45, 0.75, 0.76, 0.77, 0.78];
  const front = at.map((x) => ({ unit: space.toUnit([x, 0.5]), scored: scored([x, 1 - x]) }));
  const make = refiner(stream(1, 'refine'), space, front);
  const points = Array.from({ length: 2000 }, make);
  expect(mean(points.map(([x]) => Math.min(...at.map((a) => Math.abs(a - x)))))).toBeLessThan(0.06);
  // y only changes by small steps of its own.
  expect(points.filter(([, y]) => y === 0.5).length / 2000).toBeGreaterThan(0.75);
  expect(points.some(([, y]) => y !== 0.5)).toBe(true);
  // The gap is 0.3 of 0.38 wide, and gets its share.
  expect(points.filter(([x]) => x > 0.455 && x < 0.745).length / 2000).toBeGreaterThan(0.15);
});
