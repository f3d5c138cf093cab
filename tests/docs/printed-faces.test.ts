import { expect, test } from 'vitest';
import { POSE } from '../../src/motion/pose.js';
import { assemble } from '../support/assemble.js';

const VEE = { kind: 'v-fold', glue: [60, 60], panels: [66, 66], feet: [20, 20], ridge: 20 };
const fold = (shape: string, at: number) => ({ kind: 'parallel-fold', shape, at, length: 20 });

/** Half open, the left page lies flat, the gutter runs along y, and the right page stands up along z. */
const figure = assemble([
  { ...VEE, name: 'vee', at: 30 },
  { ...VEE, name: 'back', at: 80, toward: 'start' },
  { ...fold('tent', 90), name: 'tent', glue: [15, 15], widths: [25, 25] },
  { ...fold('box', 120), name: 'box', glue: [20, 30] },
  { ...fold('layer', 150), name: 'layer', glue: [25, 25], widths: [30, 30], layers: [20, 20] },
  { ...VEE, name: 'rider', on: 'tent ridge', at: 4, points: 'out', feet: [9, 9], ridge: 9 },
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

test.each([0, 10])('a place on a V-fold counts from where its card begins, %i mm from the apex', (start) => {
  const { panels, open } = assemble([
    { ...VEE, name: 'vee', at: 30, start, feet: [50, 50], ridge: 60 },
    { name: 'nod', kind: 'counter-fold', on: 'vee ridge', at: 25, diagonal: 30, side: 10, length: 10 },
  ]);
  const origin = (name: string) => {
    const at = panels.findIndex((panel) => panel.name === name) * POSE;
    return [3, 7, 11].map((i) => open[at + i]);
  };
  const [apex, vertex] = [origin('vee left'), origin('nod left')];
  expect(Math.hypot(...apex.map((v, i) => vertex[i] - v))).toBeCloseTo(25 + start, 6);
});
