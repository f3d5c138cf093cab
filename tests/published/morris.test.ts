import { describe, expect, test } from 'vitest';
import { dimsWorthALook, morrisScreening } from '../../src/insight/sensitivity/morris.js';
import { stream } from '../../src/search/random.js';
import { batchOf } from '../insight/sensitivity/functions.js';

/**
 * The test function of M. D. Morris, Technometrics 33 (1991) 161-174, section 5, from memory: 20 inputs in [0, 1],
 * y = Σ βᵢ wᵢ + Σ βᵢⱼ wᵢ wⱼ + Σ βᵢⱼₗ wᵢ wⱼ wₗ + Σ βᵢⱼₗₛ wᵢ wⱼ wₗ wₛ, sums over rising indices, w = 2(x − ½), but
 * w = 2(1.1 x / (x + 0.1) − ½) for inputs 3, 5 and 7. βᵢ = 20 to input 10, βᵢⱼ = −15 to 6, βᵢⱼₗ = −10 to 5,
 * βᵢⱼₗₛ = 5 to 4; the other first- and second-order ones standard normal, the other higher ones 0.
 *
 * His findings: 11 to 20 have no effect to speak of; 8, 9 and 10 have large effects with little spread (linear, nothing
 * joins them); 1 to 7 have effects with a large spread (curved, or joined with others).
 */
const random = stream(1, 'coefficients');
const BETA = Array.from({ length: 20 }, (_, i) => (i < 10 ? 20 : random.normal()));
const PAIRS = Array.from({ length: 20 }, (_, i) =>
  Array.from({ length: 20 }, (_, j) => (i < 6 && j < 6 ? -15 : random.normal())),
);

function morrisFunction(x: Float64Array): number[] {
  const w = x.map((v, i) => 2 * ([2, 4, 6].includes(i) ? (1.1 * v) / (v + 0.1) - 0.5 : v - 0.5));
  let y = 0;
  for (let i = 0; i < 20; i++) {
    y += BETA[i] * w[i];
    for (let j = i + 1; j < 20; j++) {
      y += PAIRS[i][j] * w[i] * w[j];
      for (let l = j + 1; l < 5; l++) {
        y -= 10 * w[i] * w[j] * w[l];
        for (let s = l + 1; s < 4; s++) y += 5 * w[i] * w[j] * w[l] * w[s];
      }
    }
  }
  return [y];
}

describe("Morris's test function", async () => {
  const walks = 20;
  const results = await morrisScreening(batchOf(morrisFunction), 20, walks, stream(2, 'walks'));
  const effects = results.map(([{ effect }]) => {
    if (effect === null) throw new Error('no effect');
    return effect;
  });
  const group = (from: number, to: number) => effects.slice(from - 1, to);

  test('inputs 11 to 20 matter little, 1 to 10 matter', () => {
    const least = Math.min(...group(1, 10).map((e) => e.size));
    const most = Math.max(...group(11, 20).map((e) => e.size));
    expect(most).toBeLessThan(least / 2);
  });

  test('8, 9 and 10 act linearly: a mean of 40, many standard errors from 0, and little spread', () => {
    for (const { mean, spread } of group(8, 10)) {
      expect(Math.abs(mean - 40)).toBeLessThan(6);
      expect(spread).toBeLessThan(12);
    }
  });

  test('1 to 7 are curved or joined: a large spread', () => {
    for (const { spread } of group(1, 7)) expect(spread).toBeGreaterThan(20);
  });

  test('a closer look goes to the first ten', () => {
    expect(dimsWorthALook(results, 0.4)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9]);
  });
});
