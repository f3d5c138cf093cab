import { expect, test } from 'vitest';
import { assemble } from '../support/assemble.js';

/** Two posts whose drawn outlines reach so far above the plate's hinges at a height of 12 mm. */
const sidesAt = (up: number) => {
  const posts = [60, 100].map((at, i) => ({
    name: `post ${i}`,
    kind: 'v-fold',
    at,
    glue: [90, 45],
    panels: [45, 90],
    feet: [60, 30],
    ridge: 14,
    outlines: {
      left: {
        polygon: [
          [0, 0],
          [60, 0],
          [60, up],
          [20, up],
          [9.8995, 9.8995],
        ],
      },
    },
  }));
  const supports = [0, 1].map((i) => ({
    panel: `post ${i} left`,
    line: [
      [30, 12],
      [50, 12],
    ],
  }));
  const assembly = assemble([...posts, { name: 'body', kind: 'plate', supports }] as never);
  return ['left', 'right'].map((side) => {
    const { sides, sense } = assembly.creaseNamed(`body hinge 2 ${side}`, '');
    return [...sides, sense];
  });
};

test('on which side of its posts a plate has its creases does not hang on how much card reaches past the hinges', () => {
  for (const up of [22, 24, 26, 40]) expect(sidesAt(up)).toEqual(sidesAt(16));
});
