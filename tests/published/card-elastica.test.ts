import { describe, expect, it } from 'vitest';
import { coneBowLoad, cylinderBow, cylinderBowLoad, eulerLoad } from '../../src/card/bow.js';

const RADIANS = Math.PI / 180;

describe('a strip between hinged ends', () => {
  it('bows at the load of Euler (Timoshenko and Gere, Theory of Elastic Stability, ch. 2)', () => {
    expect(cylinderBowLoad(8, 60, 50)).toBeCloseTo(1.895, 3);
    expect(eulerLoad(8 * 60, 50)).toBe(cylinderBowLoad(8, 60, 50));
  });

  // The table of the elastica in the same chapter, from memory, and the elliptic integrals of Abramowitz and Stegun.
  it.each([
    [20, 1.0154, 0.1097, 0.0303],
    [40, 1.0637, 0.2111, 0.1188],
    [60, 1.1517, 0.2966, 0.259],
    [120, 1.8848, 0.4016, 0.8768],
  ])('whose ends slope by %d° carries %d times that load', (slope, load, sagitta, shortening) => {
    const bowed = elastica(slope * RADIANS);
    expect(bowed.load).toBeCloseTo(load, 3);
    expect(bowed.sagitta).toBeCloseTo(sagitta, 3);
    expect(bowed.shortening).toBeCloseTo(shortening, 3);
  });

  it('has the integrals K and E of Abramowitz and Stegun, table 17.1, at m = 0.5', () => {
    const { first, second } = completeElliptic(Math.SQRT1_2);
    expect(first).toBeCloseTo(1.85407467730137, 12);
    expect(second).toBeCloseTo(1.35064388104768, 12);
  });

  it('bows by (2/π) √(f w), as the elastica does while it is slight', () => {
    const { sagitta, shortening } = elastica(20 * RADIANS);
    expect(cylinderBow(shortening, 1) / sagitta).toBeCloseTo(1, 1);
    const slight = elastica(2 * RADIANS);
    expect(cylinderBow(slight.shortening, 1) / slight.sagitta).toBeCloseTo(1, 3);
  });
});

// n² − 1 at p = π/n: the n-fold states of a cone with too great an angle (Müller, Ben Amar and Guven 2008, arXiv 0807.1814).
it.each([
  [60, 8],
  [45, 15],
  [90, 3],
  [84, 3.592],
])('a sector of %d° bows as a cone at %d D Λ', (sector, load) => {
  expect(coneBowLoad(1, 1, sector * RADIANS)).toBeCloseTo(load, 3);
});

it('a sector bowed as a cone holds that energy: integrated on the unit sphere, without the formula', () => {
  // y = a sin(πφ/p) raised from the equator: arc length and geodesic curvature of the curve itself, by differences.
  const p = 60 * RADIANS;
  const a = 0.02;
  const n = 20_000;
  const at = (i: number): number[] => {
    const x = (i / n) * p;
    const y = a * Math.sin((Math.PI * x) / p);
    return [Math.cos(y) * Math.cos(x), Math.cos(y) * Math.sin(x), Math.sin(y)];
  };
  let length = 0;
  let square = 0;
  for (let i = 0; i < n; i++) {
    const [u, v] = [at(i), at(i + 1)];
    const step = Math.hypot(...u.map((x, axis) => v[axis] - x));
    length += step;
    if (i === 0) continue;
    const w = at(i - 1);
    const turn = u.map((x, axis) => (v[axis] - 2 * x + w[axis]) / step ** 2);
    // Geodesic curvature: the part of the second difference that lies along the sphere.
    square += (Math.hypot(...turn) ** 2 - 1) * step;
  }
  // The sector is as long as the arc; its creases are p apart.
  expect((0.5 * square) / (length - p)).toBeCloseTo(8, 1);
});

/**
 * A strip bowed between hinged ends: the elastica (Euler; Timoshenko and Gere, Theory of Elastic Stability, ch. 2).
 *
 * With k = sin(α/2), α the slope at the ends, K and E the complete elliptic integrals of the first and second kind:
 *   P / P_cr = (2K/π)²,   sagitta / L = k / K,   shortening / L = 2 (1 − E/K),   P_cr = π² B / L².
 */
function elastica(slope: number) {
  const k = Math.sin(slope / 2);
  const { first, second } = completeElliptic(k);
  return {
    load: ((2 * first) / Math.PI) ** 2,
    sagitta: k / first,
    shortening: 2 * (1 - second / first),
  };
}

/**
 * Complete elliptic integrals of the first and second kind, by the arithmetic-geometric mean (Abramowitz and Stegun
 * 17.6). @param k modulus, 0 to 1 (k = 1 has no first integral)
 */
function completeElliptic(k: number): { readonly first: number; readonly second: number } {
  let a = 1;
  let b = Math.sqrt(1 - k * k);
  let c = k;
  let sum = (c * c) / 2;
  for (let weight = 1; Math.abs(c) > 1e-17 * a && weight < 1e6; weight *= 2) {
    const mean = (a + b) / 2;
    c = (a - b) / 2;
    b = Math.sqrt(a * b);
    a = mean;
    sum += weight * c * c;
  }
  const first = Math.PI / (2 * a);
  return { first, second: first * (1 - sum) };
}
