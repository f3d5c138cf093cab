import { expect, test } from 'vitest';
import { sobolSensitivity } from '../../src/insight/sensitivity/sobol-indices.js';
import { stream } from '../../src/search/random.js';
import { Sobol } from '../../src/search/sobol.js';
import { batchOf } from '../insight/sensitivity/functions.js';

/**
 * Sobol's g-function: Π (|4xᵢ − 2| + aᵢ) / (1 + aᵢ) over the unit cube. Each factor has mean 1 and variance
 * Vᵢ = 1 / 3(1 + aᵢ)², so V = Π (1 + Vᵢ) − 1, Sᵢ = Vᵢ / V and STᵢ = Vᵢ Π_{j≠i} (1 + Vⱼ) / V.
 *
 * Source: A. Saltelli, I. M. Sobol', About the use of rank transformation in sensitivity analysis, Reliability
 * Engineering and System Safety 50 (1995) 225-239; the eight aᵢ are theirs, from memory.
 */
const A = [0, 1, 4.5, 9, 99, 99, 99, 99];
const PARTS = A.map((a) => 1 / (3 * (1 + a) ** 2));
const PRODUCT = PARTS.reduce((product, part) => product * (1 + part), 1);
const FIRST = PARTS.map((part) => part / (PRODUCT - 1));
const TOTAL = PARTS.map((part) => (part * PRODUCT) / (1 + part) / (PRODUCT - 1));

const g = (x: Float64Array) => [
  x.reduce((product, value, i) => product * ((Math.abs(4 * value - 2) + A[i]) / (1 + A[i])), 1),
];

test("Sobol's g-function, closed form", async () => {
  // The published first-order indices, as a check on the closed form above.
  expect(FIRST[0]).toBeCloseTo(0.716, 3);
  expect(FIRST[1]).toBeCloseTo(0.179, 3);
  expect(FIRST[2]).toBeCloseTo(0.0237, 4);

  const sobol = new Sobol(16, 5);
  const results = await sobolSensitivity(batchOf(g), 8, {
    count: 4096,
    point: (index, out) => sobol.point(index, out),
    random: stream(5, 'bootstrap'),
  });
  results.forEach(([{ index }], dim) => {
    if (index === null) throw new Error('no index');
    expect(Math.abs(index.first - FIRST[dim])).toBeLessThan(0.01);
    expect(Math.abs(index.total - TOTAL[dim])).toBeLessThan(0.01);
  });
  const totals = results.map(([{ index }]) => index?.total ?? 0);
  expect(totals.slice(0, 4)).toEqual(totals.slice(0, 4).sort((a, b) => b - a));
});
