import fc from 'fast-check';
import { expect, test } from 'vitest';
import { frontOfTwo } from '../../src/search/front-of-two.js';
import { sortIntoFronts } from '../../src/search/pareto.js';

test('the front of two values is that of the whole sort, whichever side is better', () => {
  const few = fc.integer({ min: 0, max: 6 });
  const side = fc.constantFrom('more' as const, 'less' as const);
  fc.assert(
    fc.property(
      fc.array(fc.tuple(few, few), { minLength: 1, maxLength: 40 }),
      side,
      side,
      (points, bx, by) => {
        const front = frontOfTwo(
          [...points.keys()],
          { better: bx, value: (place) => points[place][0] },
          { better: by, value: (place) => points[place][1] },
        );
        const loss = (value: number, better: string) => (better === 'more' ? -value : value);
        const ranks = sortIntoFronts(
          points.map(([x, y]) => ({ objectives: Float64Array.of(loss(x, bx), loss(y, by)), violation: 0 })),
        );
        expect([...front].sort((a, b) => a - b)).toEqual(
          [...points.keys()].filter((place) => ranks[place] === 0),
        );
        const along = front.map((place) => points[place][0]);
        expect(along).toEqual([...along].sort((a, b) => a - b));
      },
    ),
  );
});
