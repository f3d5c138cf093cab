import { expect, test } from 'vitest';
import { sobolSensitivity } from '../../src/insight/sensitivity/sobol-indices.js';
import { stream } from '../../src/search/random.js';
import { Sobol } from '../../src/search/sobol.js';
import { batchOf } from '../insight/sensitivity/functions.js';

/**
 * f = sin x₁ + a sin² x₂ + b x₃⁴ sin x₁, all x even over (−π, π), a = 7, b = 0.1.
 *
 * Source: T. Ishigami, T. Homma, An importance quantification technique in uncertainty analysis for computer models,
 * ISUMA '90, IEEE (1990) 398-403; the indices as in A. Saltelli et al., Global Sensitivity Analysis: The Primer
 * (2008), with V₁ = (1 + bπ⁴/5)²/2, V₂ = a²/8, V₁₃ = b²π⁸(1/18 − 1/50), all other parts 0.
 */
const FIRST = [0.314, 0.442, 0];
const TOTAL = [0.558, 0.442, 0.244];

const ishigami = (u: Float64Array) => {
  const [x1, x2, x3] = u.map((value) => Math.PI * (2 * value - 1));
  return [Math.sin(x1) + 7 * Math.sin(x2) ** 2 + 0.1 * x3 ** 4 * Math.sin(x1)];
};

test('Sobol indices of the Ishigami function, as published', async () => {
  const sobol = new Sobol(6, 3);
  const results = await sobolSensitivity(batchOf(ishigami), 3, {
    count: 4096,
    point: (index, out) => sobol.point(index, out),
    random: stream(3, 'bootstrap'),
  });
  results.forEach(([{ index, reason, droppedShare }], dim) => {
    expect(reason).toBeNull();
    expect(droppedShare).toBe(0);
    if (index === null) throw new Error('no index');
    expect(Math.abs(index.first - FIRST[dim])).toBeLessThan(0.01);
    expect(Math.abs(index.total - TOTAL[dim])).toBeLessThan(0.01);
    expect(index.firstLow).toBeLessThan(FIRST[dim]);
    expect(index.firstHigh).toBeGreaterThan(FIRST[dim]);
    expect(index.totalLow).toBeLessThan(TOTAL[dim]);
    expect(index.totalHigh).toBeGreaterThan(TOTAL[dim]);
  });
});

test('x₃ acts through x₁ alone: its first-order interval includes 0, its total interval does not', async () => {
  const random = stream(8, 'plain random points');
  const [, , [{ index }]] = await sobolSensitivity(batchOf(ishigami), 3, {
    count: 2000,
    point: (_, out) => {
      for (let i = 0; i < out.length; i++) out[i] = random.next();
    },
    random: stream(8, 'bootstrap'),
  });
  if (index === null) throw new Error('no index');
  expect(index.firstLow).toBeLessThanOrEqual(0);
  expect(index.firstHigh).toBeGreaterThanOrEqual(0);
  expect(index.totalLow).toBeGreaterThan(0.15);
});
