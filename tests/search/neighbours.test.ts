import { expect, it } from 'vitest';
import type { Candidate } from '../../src/search/archive.js';
import { Neighbours } from '../../src/search/neighbours.js';
import { stream } from '../../src/search/random.js';
import { Space } from '../../src/search/variables.js';
import { real, scored } from '../support/search-problems.js';

const space = new Space([
  real('x', 0, 1),
  real('y', 0, 1),
  real('z', 0, 1),
  { name: 'c', kind: 'choice', options: 3 },
]);
const random = stream(1, 'neighbours');
const points = (count: number) =>
  Array.from({ length: count }, () => space.snap(Float64Array.from({ length: 4 }, () => random.next())));
const option = (unit: Float64Array) => Math.floor(3 * unit[3]);

/** Two objectives, linear in the dims and with an amount for each option; unsound where x + y is more than 1. */
const linear = (unit: Float64Array): Candidate => {
  const [x, y, z] = unit;
  const over = x + y > 1;
  // What is not sound tells of its objectives nothing.
  const objectives = [3 + 2 * x - y + [0, 1, 5][option(unit)], 10 - 4 * z + 0.5 * x];
  return { unit, scored: scored(over ? [Number.NaN, 1e6] : objectives, over ? x + y - 1 : 0) };
};
const known = points(600).map(linear);
const sound = known.filter(({ scored: { violation } }) => violation === 0);

it('tells what is linear in the dims, choices too, to within what slopes are drawn to zero', () => {
  const neighbours = new Neighbours(space, sound.slice(0, 20), known);
  // Near the centres: far from them every fit guesses.
  const near = sound
    .slice(0, 20)
    .map(({ unit }) => space.snap(unit.map((u, i) => (i < 3 ? u + 0.02 * random.normal() : u))));
  const { objectives, spread } = neighbours.expect(near);
  for (const [i, unit] of near.entries()) {
    const [x, y, z] = unit;
    expect(Math.abs(objectives[i][0] - (3 + 2 * x - y + [0, 1, 5][option(unit)]))).toBeLessThan(0.1);
    expect(Math.abs(objectives[i][1] - (10 - 4 * z + 0.5 * x))).toBeLessThan(0.1);
    expect(Array.from(spread[i])).toEqual([0, 0]);
  }
});

it('holds sound for likely where neighbours are, and for even at a limit', () => {
  const middle = (x: number, y: number) => space.snap(Float64Array.of(x, y, 0.5, 0.5));
  const centers = [middle(0.2, 0.2), middle(0.5, 0.5), middle(0.8, 0.8)];
  const neighbours = new Neighbours(space, centers.map(linear), known);
  const [well, even, badly] = neighbours.expect(centers).sound;
  expect(well).toBeGreaterThan(0.9);
  expect(even).toBeGreaterThan(0.25);
  expect(even).toBeLessThan(0.75);
  expect(badly).toBeLessThan(0.1);
  // Across the limit it goes on falling.
  const { sound: odds } = neighbours.expect([middle(0.45, 0.45), middle(0.55, 0.55)]);
  expect(odds[0]).toBeGreaterThan(even);
  expect(odds[1]).toBeLessThan(even);
});

it('expects nothing below 0 of an objective that never was, and goes on below where one was', () => {
  const line = (below: number) =>
    points(200).map((unit) => ({ unit, scored: scored([Math.max(unit[0], 0.3) - 0.3, unit[0] - below]) }));
  const beyond = space.snap(Float64Array.of(0, 0.5, 0.5, 0.5));
  const center = { unit: space.snap(Float64Array.of(0.4, 0.5, 0.5, 0.5)), scored: scored([0.1, 0.1]) };
  const [[first, second]] = new Neighbours(space, [center], line(0.3)).expect([beyond]).objectives;
  expect(first).toBe(0);
  expect(second).toBeLessThan(-0.2);
});

it('knows no more than it was told where neighbours are few, all alike or in one place', () => {
  const [one] = points(1);
  const alone = { unit: one, scored: scored([2, 3]) };
  const [other] = points(1);
  const { objectives, sound: odds } = new Neighbours(space, [alone], [alone]).expect([one, other]);
  for (const told of objectives) {
    expect(told[0]).toBeCloseTo(2, 6);
    expect(told[1]).toBeCloseTo(3, 6);
  }
  expect(odds[0]).toBeCloseTo(1, 6);
  // Nothing sound: nothing is expected of the objectives, and no odds.
  const bad = points(30).map((unit) => ({ unit, scored: scored([Number.NaN, 1], 1) }));
  expect(new Neighbours(space, bad.slice(0, 2), bad).expect([one]).sound[0]).toBeCloseTo(0, 6);
});
