import { mean, sampleSkewness, standardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { mix, Random, stream } from '../../src/search/random.js';

describe('xoshiro128**', () => {
  it('gives the numbers of the reference C code', () => {
    // From state 1, 2, 3, 4: made with the authors' public-domain C code, compiled here; the first by hand: rotl(2 * 5, 7) * 9.
    const random = new Random(1, 2, 3, 4);
    expect(Array.from({ length: 10 }, () => random.bits())).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  it('refuses the state that it would never leave', () => {
    expect(() => new Random(0, 0, 0, 0)).toThrow(RangeError);
  });
});

describe('mix', () => {
  it("is MurmurHash3's finaliser", () => {
    // Known from the literature (fmix32 of 0 and of 1), from memory: 0 and 0x514e28b7.
    expect(mix(0)).toBe(0);
    expect(mix(1)).toBe(0x514e28b7);
  });
});

describe('a stream', () => {
  it('depends on seed and label and on nothing else', () => {
    const first = (seed: number, label: string) => stream(seed, label).next();
    expect(first(1, 'a')).toBe(first(1, 'a'));
    expect(new Set([first(1, 'a'), first(2, 'a'), first(1, 'b'), first(11, ''), first(1, '1')]).size).toBe(5);
  });

  it('is uniform: 32 cells of 32,000 draws, chi-squared of 31 degrees', () => {
    const random = stream(3, 'uniform');
    const cells = new Float64Array(32);
    for (let i = 0; i < 32000; i++) cells[Math.floor(random.next() * 32)]++;
    const chi = cells.reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
    // Tables of chi-squared: 99.9 % lie below 61.1, 0.1 % below 11.7 (too even is wrong as well).
    expect(chi).toBeLessThan(61.1);
    expect(chi).toBeGreaterThan(11.7);
  });

  it('is normal where asked to be', () => {
    const random = stream(5, 'normal');
    const draws = Array.from({ length: 20000 }, () => random.normal());
    // Three standard errors of 20,000 draws.
    expect(Math.abs(mean(draws))).toBeLessThan(3 / Math.sqrt(20000));
    expect(Math.abs(standardDeviation(draws) - 1)).toBeLessThan(3 / Math.sqrt(40000));
    expect(Math.abs(sampleSkewness(draws))).toBeLessThan(3 * Math.sqrt(6 / 20000));
    // 4.55 % of a normal distribution lie beyond two standard deviations.
    expect(draws.filter((x) => Math.abs(x) > 2).length / 20000).toBeCloseTo(0.0455, 2);
  });

  it('shuffles without loss, and each order alike', () => {
    const random = stream(7, 'shuffle');
    const seen = new Map<string, number>();
    for (let i = 0; i < 6000; i++) {
      const order = random.shuffle([0, 1, 2]).join('');
      seen.set(order, (seen.get(order) ?? 0) + 1);
    }
    expect([...seen.keys()].sort()).toEqual(['012', '021', '102', '120', '201', '210']);
    // 1,000 each, give or take four standard deviations.
    for (const count of seen.values()) expect(Math.abs(count - 1000)).toBeLessThan(4 * Math.sqrt(833));
  });

  it('draws every whole number below a bound', () => {
    const random = stream(9, 'below');
    expect(new Set(Array.from({ length: 200 }, () => random.below(5)))).toEqual(new Set([0, 1, 2, 3, 4]));
  });
});
