import { expect, test } from 'vitest';
import { POSE } from '../../src/motion/assembly.js';
import { assemble } from '../support/assemble.js';

/** Half open, the left page lies flat, the gutter runs along y, and the right page stands up along z. */
const figure = assemble([
  { name: 'vee', kind: 'v-fold', at: 30, glue: [60, 60], panels: [66, 66], feet: [20, 20], ridge: 20 },
  {
    name: 'back',
    kind: 'v-fold',
    at: 80,
    toward: 'start',
    glue: [60, 60],
    panels: [66, 66],
    feet: [20, 20],
    ridge: 20,
  },
  {
    name: 'tent',
    kind: 'parallel-fold',
    shape: 'tent',
    at: 90,
    length: 20,
    glue: [15, 15],
    widths: [25, 25],
  },
  { name: 'box', kind: 'parallel-fold', shape: 'box', at: 120, length: 20, glue: [20, 30] },
  {
    name: 'layer',
    kind: 'parallel-fold',
    shape: 'layer',
    at: 150,
    length: 20,
    glue: [25, 25],
    widths: [30, 30],
    layers: [20, 20],
  },
  {
    name: 'rider',
    kind: 'v-fold',
    on: 'tent ridge',
    at: 4,
    points: 'out',
    glue: [60, 60],
    panels: [66, 66],
    feet: [9, 9],
    ridge: 9,
  },
]);
const poses = figure.halfOpen();

const [FROM_LEFT_TO_RIGHT, TO_THE_HEAD, UP] = [0, 1, 2];

test.each([
  ['left page', UP, 1],
  ['vee left', TO_THE_HEAD, 1],
  ['vee right', TO_THE_HEAD, 1],
  ['back left', TO_THE_HEAD, 1],
  ['rider left', TO_THE_HEAD, 1],
  ['rider right', TO_THE_HEAD, 1],
  ['tent left', FROM_LEFT_TO_RIGHT, 1],
  ['tent right', UP, -1],
  ['box left', FROM_LEFT_TO_RIGHT, 1],
  ['layer wall left', FROM_LEFT_TO_RIGHT, 1],
  ['layer layer left', UP, 1],
  ['layer layer right', FROM_LEFT_TO_RIGHT, -1],
])('the printed face of %s looks where the docs of the figure file say', (name, axis, sign) => {
  const panel = figure.panels.findIndex((each) => each.name === name);
  expect(sign * poses[panel * POSE + 4 * axis + 2]).toBeGreaterThan(0.02);
});
