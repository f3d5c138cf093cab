import { expect, it } from 'vitest';
import {
  type FoldSpring,
  foldState,
  newFoldState,
  onFold,
  parallelSpring,
  vertexSpring,
} from '../../src/card/fold-spring.js';
import { type Shut, shut, tentShell, vShell } from './shell-folds.js';

/** The closed forms beside a shell of triangles and hinges, which knows nothing of them. Coarse, so that it is quick. */

const RADIANS = Math.PI / 180;
const card = { pull: 900, bend: 8 };

/** Energy of the shell over that of the closed form, and the same of the bow, at each page angle. */
function compared(frames: readonly Shut[], spring: FoldSpring, parents = (pageAngle: number) => pageAngle) {
  const state = newFoldState();
  return frames.map(({ pageAngle, energy, bow }) => {
    foldState(spring, parents(pageAngle * RADIANS), state);
    return { pageAngle, energy: energy / state.energy, bow: bow / state.bow };
  });
}

const v = (glue: [number, number], sectors: [number, number]): FoldSpring =>
  vertexSpring(inRadians(glue), inRadians(sectors), 75, 5, 1, card, 0.3, 0);
const inRadians = ([a, b]: [number, number]): [number, number] => [a * RADIANS, b * RADIANS];

it('a V-fold 1° off holds what the closed form says, within 0.6 to 1.3 by the median, and bows as far', () => {
  const frames = shut(vShell([45, 45], [61, 60], 75, card, 6, 18), [18, 14, 12, 10, 8, 7, 6, 5], 3000, 2e-2);
  expect(frames[0].energy).toBeLessThan(0.01);
  const shares = compared(frames.slice(3), v([45, 45], [61, 60]));
  for (const { energy, bow } of shares) {
    expect(energy).toBeGreaterThan(0.6);
    expect(energy).toBeLessThan(2);
    expect(bow).toBeGreaterThan(0.6);
    expect(bow).toBeLessThan(1.5);
  }
  expect(shares.map(({ energy }) => energy).sort((a, b) => a - b)[2]).toBeLessThan(1.3);
});

it('so does an asymmetric V-fold, within 0.4 to 1.8', () => {
  const frames = shut(vShell([60, 50], [71, 80], 75, card, 5, 24), [24, 16, 12, 8, 5, 3], 2000, 2e-2);
  expect(frames[0].energy).toBeLessThan(0.01);
  for (const { energy, bow } of compared(frames.slice(2), v([60, 50], [71, 80]))) {
    expect(energy).toBeGreaterThan(0.4);
    expect(energy).toBeLessThan(1.8);
    expect(bow).toBeGreaterThan(0.65);
    expect(bow).toBeLessThan(1.1);
  }
});

it('so does a tent 1 mm off, within 0.8 to 1.6 where it has settled, and 2.7 where it is about to snap', () => {
  const tent = parallelSpring([30, 30], [51, 50], 60, 1, card, 0.3, 0);
  const frames = shut(tentShell(30, [51, 50], 60, card, 6, 20), [20, 14, 10, 8, 6, 4, 3, 2], 2000, 2e-2);
  expect(frames[0].energy).toBeLessThan(0.01);
  const energies = compared(frames.slice(2), tent).map(({ energy }) => energy);
  for (const energy of energies) {
    expect(energy).toBeGreaterThan(0.8);
    expect(energy).toBeLessThan(2.7);
  }
  // The one before it snaps aside apart.
  expect(energies.sort((a, b) => a - b)[energies.length - 2]).toBeLessThan(1.8);
});

it('a tent on a tent is softer than on rigid parents, since those bow, too: within 0.4 to 2.5', () => {
  const big = parallelSpring([30, 30], [50, 50], 60, 1, card, 0.3, 0);
  const small = parallelSpring([20, 20], [31, 30], 60, 1, card, 0.3, 0);
  const laid = tentShell(30, [50, 50], 60, card, 5, 30, { feet: 20, widths: [31, 30] });
  const frames = shut(laid, [30, 25, 20, 17, 14, 12, 10, 8, 6, 4], 800, 3e-2);
  const parents = (pageAngle: number) => 2 * Math.asin((30 / 50) * Math.sin(pageAngle / 2));
  const near = frames.filter(({ pageAngle }) => pageAngle <= 14);
  for (const { energy } of compared(near, onFold(small, big, 50 / 30), parents)) {
    expect(energy).toBeGreaterThan(0.4);
    expect(energy).toBeLessThan(2.5);
  }
  for (const { energy } of compared(near.slice(1), small, parents)) expect(energy).toBeLessThan(0.7);
});
