import { expect, test } from 'vitest';
import { assemble, rectangle } from '../support/assemble.js';
import { plan } from './figures.js';

test('a piece whose end is free is glued on flat first, and goes through its slot with what it hangs on', () => {
  // A jack on a strut under the lid of a box, which stays parallel to the page.
  const assembly = assemble([
    { name: 'box', kind: 'parallel-fold', shape: 'box', at: 60, length: 80, glue: [46, 34] },
    {
      name: 'lift',
      kind: 'strut',
      foot: {
        panel: 'left page',
        line: [
          [-23, 70],
          [-23, 130],
        ],
      },
      top: {
        panel: 'box right',
        line: [
          [10, 23],
          [30, 23],
        ],
      },
    },
    { name: 'jack', kind: 'glued-piece', on: 'lift', at: [32, 4], outline: rectangle(16, 50) },
    {
      name: 'hatch',
      kind: 'slot',
      on: 'box right',
      outline: rectangle(22, 6).map(([x, y]) => [x + 39, y + 20]),
      passes: 'jack',
    },
  ]);
  const { steps } = plan(assembly, { paper: 'A3' });
  const done = steps.map(({ kind, nets: [what], where }) => `${kind} ${what.name} ${where}`);
  const [glued, passed, stands, held] = [
    'attach jack mat',
    'thread jack mat',
    'attach box book',
    'attach lift book',
  ].map((step) => done.indexOf(step));
  expect([glued, passed, stands, held].every((place) => place >= 0)).toBe(true);
  expect(glued).toBeLessThan(passed);
  expect(passed).toBeLessThan(Math.min(stands, held));
});
