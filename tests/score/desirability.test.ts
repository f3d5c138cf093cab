import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { desirability, overall } from '../../src/score/desirability.js';
import { Scorer } from '../../src/score/scorer.js';

// Derringer and Suich (Simultaneous optimization of several response variables, Journal of Quality Technology 12, 1980;
// from memory): one-sided d = ((y − low) / (high − low))^r, 0 below and 1 above; two-sided likewise up to the target and
// down again; together D = (d₁ · d₂ · … · d_k)^(1/k), with weights (Derringer, 1994) D = (Π dᵢ^wᵢ)^(1/Σw). Here r = 1, and
// low and high lie on either side of the bound by its own size.

describe('how desirable a value is', () => {
  it.each([
    // low = 0, high = 60
    ['nothing of what is wanted', { least: 30 }, 0, 0],
    ['half of it', { least: 30 }, 15, 0.25],
    ['just what is wanted at least', { least: 30 }, 30, 0.5],
    ['half as much again', { least: 30 }, 45, 0.75],
    ['twice as much', { least: 30 }, 60, 1],
    ['even more', { least: 30 }, 600, 1],
    ['the other way', { least: 30 }, -5, 0],
    // low = 80, high = 0
    ['none of what may be at most', { most: 40 }, 0, 1],
    ['half of that', { most: 40 }, 20, 0.75],
    ['just what may be at most', { most: 40 }, 40, 0.5],
    ['half as much again of that', { most: 40 }, 60, 0.25],
    ['twice as much of that', { most: 40 }, 80, 0],
    ['a bound below zero', { least: -20 }, -30, 0.25],
    ['a bound below zero that it keeps', { most: -20 }, -30, 0.75],
    // Where a bound is zero its size is the scale: 8.
    ['a bound of zero', { least: 0 }, 0, 0.5],
    ['a bound of zero, missed', { least: 0 }, -4, 0.25],
    ['a bound of zero, kept', { least: 0 }, 8, 1],
    ['a most of zero, missed', { most: 0 }, 6, 0.125],
    ['the worse of two bounds', { least: 20, most: 40 }, 25, 0.625],
    ['the worse of two bounds, on the other side', { least: 20, most: 40 }, 38, 0.525],
    ['the target', { target: 90, tolerance: 12 }, 90, 1],
    ['half of the tolerance', { target: 90, tolerance: 12 }, 84, 0.75],
    ['the edge of the tolerance', { target: 90, tolerance: 12 }, 102, 0.5],
    ['its other edge', { target: 90, tolerance: 12 }, 78, 0.5],
    ['half as far again', { target: 90, tolerance: 12 }, 72, 0.25],
    ['twice the tolerance', { target: 90, tolerance: 12 }, 114, 0],
    ['even farther off', { target: 90, tolerance: 12 }, 0, 0],
  ])('%s', (_, want, value, worth) => {
    expect(desirability(value, want, 8)).toBeCloseTo(worth, 12);
  });
});

describe('all wants together', () => {
  const all = (...worths: [worth: number, weight: number][]) =>
    overall(worths.map(([worth, weight]) => ({ worth, weight })));

  it('are worth their geometric mean, by their weights', () => {
    expect(all([0.25, 1], [1, 1])).toBeCloseTo(0.5, 12);
    expect(all([0.2, 1], [0.4, 1], [0.8, 1])).toBeCloseTo(0.4, 12);
    // 0.0625^(1/4) and 0.0625^(3/4)
    expect(all([0.0625, 1], [1, 3])).toBeCloseTo(0.5, 12);
    expect(all([0.0625, 3], [1, 1])).toBeCloseTo(0.125, 12);
    expect(all([0.0625, 30], [1, 10])).toBeCloseTo(0.125, 12);
  });

  it('are worth nothing as soon as one is, and what has no weight has no say', () => {
    expect(all([0, 0.01], [1, 5])).toBe(0);
    expect(all([0, 0], [0.7, 5])).toBeCloseTo(0.7, 12);
    expect(all()).toBe(1);
  });
});

describe('a dummy', () => {
  /** A strip glued on the right page, 0.3 mm thick, and a box whose walls are parallel to the pages and 20 mm wide. */
  function scored(wants: string[], limits = '') {
    const source = parseFigure(
      `page: A5
card: { grammage: 240, bulk: 1.25 }
parts:
  - { name: strip, kind: glued-piece, on: right page, at: [60, 20], outline: { polygon: [[0, 0], [12, 0], [12, 3], [0, 3]] } }
  - { name: box, kind: parallel-fold, shape: box, at: 100, length: 40, glue: [20, 20] }
wants:
${wants.map((want, i) => `  - { name: want ${i}, ${want} }`).join('\n')}
limits: { ${limits} }
`,
      'strip.yaml',
    );
    const figure = compileFigure(source);
    return new Scorer(figure).score(figure.start);
  }

  it('is worth 5 mm or 10° less where a bound is nothing', () => {
    // The wall's point 2.5 mm up rises by 2.5 mm; from 180° to 175° the wall leans by 5°.
    const { wants } = scored([
      'kind: rise, panel: box left, point: [0, 2.5], most: 0',
      'kind: level, panel: box left, from: 180, to: 175, most: 0',
    ]);
    expect(wants.map((want) => want.desirability)).toEqual([
      expect.closeTo((1 - 2.5 / 5) / 2, 9),
      expect.closeTo((1 - 5 / 10) / 2, 9),
    ]);
    expect(wants.map(({ met }) => met)).toEqual([false, false]);
  });

  it('counts the room left to each limit as a tenth of a want', () => {
    // The ridge rises to 20 mm: worth (1 + (20 − 16) / 16) / 2; the strip lies still: 1.
    const rises = (weight: number) => `kind: rise, panel: box left, least: 16, weight: ${weight}`;
    const still = 'kind: travel, panel: strip, point: [3, 1], reference: right page, target: 0, tolerance: 1';
    const card = scored([rises(2), still], 'pile: 3');
    // The box lies shut as card on card, with tabs on both pages: so thick a pile, of 3 mm.
    const pile = card.flat.pile as number;
    expect(pile).toBeGreaterThan(0.59);
    const margin = (1 + (3 - pile) / 3) / 2;
    const bounded = card.limits.filter(({ most = 0 }) => most > 0);
    const force = card.limits.find(({ name }) => name === 'force')?.value ?? 0;
    expect(bounded.map(({ name, value }) => [name, value])).toEqual([
      ['force', force],
      ['strain', 0],
      ['give', 0],
      ['outside', 0],
      ['residue', 0],
      ['pile', pile],
      ['stray glue', 0],
    ]);
    const together = (rise: number) =>
      Math.exp(
        (rise * Math.log(0.625) + 0.1 * (Math.log(margin) + Math.log((2 - force / 15) / 2))) /
          (rise + 1 + 7 * 0.1),
      );
    expect(card.desirability).toBeCloseTo(together(2), 9);
    expect(scored([rises(5), still], 'pile: 3').desirability).toBeCloseTo(together(5), 9);
  });

  it('is of no known worth where a want could not be measured', () => {
    const card = scored([
      'kind: rise, panel: box left, least: 16',
      'kind: travel, panel: box left, point: [900, 900], to: 90, least: 3',
    ]);
    expect(card.wants[0].desirability).toBeGreaterThan(0);
    expect(card.wants[1].desirability).toBeNull();
    expect(card).toMatchObject({ desirability: null, works: false });
  });

  it.each([
    ['least: 19.999', true],
    ['least: 20.001', false],
    ['most: 20.001', true],
    ['most: 19.999', false],
    ['target: 22, tolerance: 2.001', true],
    ['target: 22, tolerance: 1.999', false],
    ['target: 18, tolerance: 2.001', true],
    ['target: 18, tolerance: 1.999', false],
  ])('that rises by 20 mm, wanted %s: works %s', (goal, works) => {
    const card = scored([`kind: rise, panel: box left, ${goal}`]);
    expect(card.wants[0]).toMatchObject({ met: works });
    expect(card.violation).toBe(0);
    expect(card.works).toBe(works);
  });
});
