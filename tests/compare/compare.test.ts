import { beforeAll, describe, expect, it } from 'vitest';
import type { Comparison } from '../../src/compare/compare.js';
import { labourOf } from '../../src/compare/labour.js';
import { mustWantTheSame, variantsOfChoice } from '../../src/compare/variants.js';
import { InputError } from '../../src/figure/text/input-error.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { comparePage } from '../../src/report/pages/compare-page.js';
import { tableInWords, verdictInWords } from '../../src/report/words/compare-words.js';
import { assemble } from '../support/assemble.js';
import { compared, TENT, variants } from './support.js';

describe('comparing', { timeout: 60_000 }, () => {
  /** A tent with itself. */
  let itself: Comparison;
  beforeAll(async () => {
    itself = await compared(variants(TENT, TENT));
  });

  it('a variant with itself shows no winner', () => {
    const comparison = itself;
    expect(comparison.weighed.map(({ winner }) => winner)).toEqual(comparison.weighed.map(() => null));
    expect(verdictInWords(comparison)[0]).toContain('No winner');
  });

  it('a variant with itself, its dims in another order, so that other dummies are tried', async () => {
    const [, foot, slack] = TENT.match(/(.*foot: .*\n)(.*slack: .*\n)/) as string[];
    const comparison = await compared(variants(TENT, TENT.replace(foot + slack, slack + foot)));
    expect(comparison.runs[0].table.vector(1)).not.toEqual(comparison.runs[5].table.vector(1));
    expect(comparison.weighed.filter(({ winner }) => winner !== null)).toEqual([]);
  });

  it('two of which one is known worse shows it, over five seeds', async () => {
    // A ridge never stands higher than its sides are wide: 45 mm here, against 120.
    const low = TENT.replace('foot: { from: 20, to: 60 }', 'foot: { from: 20, to: 30 }').replace(
      'to: 60 }',
      'to: 15 }',
    );
    const comparison = await compared(variants(TENT, low));
    const stands = comparison.weighed.find(({ name }) => name === 'stands');
    expect(stands?.winner).toBe(0);
    expect(stands?.values[1].every((value) => value !== null && value <= 45)).toBe(true);
    expect(stands?.by).toBeGreaterThan(20);
    expect(verdictInWords(comparison).join(' ')).toMatch(/a wins at: .*stands/);
    // Two tents are alike in what they take: one piece, glued along two feet.
    for (const [name, medians] of [
      ['pieces of the best', [1, 1]],
      ['glue joints of the best', [2, 2]],
    ] as const)
      expect(comparison.weighed.find((each) => each.name === name)).toMatchObject({ medians, winner: null });
  });

  it('says where nothing works', async () => {
    const none = TENT.replaceAll('[side, side]', '[side, side + 20]');
    const comparison = await compared(variants(TENT, none), 30);
    expect(verdictInWords(comparison).join(' ')).toContain('Of b nothing works with any of the seeds.');
    expect(comparison.weighed.find(({ name }) => name === 'plain samples that work')?.medians[1]).toBe(0);
    expect(comparison.weighed.find(({ name }) => name === 'card of the best')?.winner).toBeNull();
  });

  it('gives the same again, and a page and a table of it', async () => {
    const few = () => compared(variants(TENT, TENT), 20);
    expect((await few()).weighed).toEqual((await few()).weighed);
    const page = comparePage(itself, [['seeds', '1 to 5']]);
    expect(page).toContain('<h1>a against b</h1>');
    expect(page).toContain('variant by variant');
    expect(page).not.toMatch(/NaN|undefined|<script/);
    expect(tableInWords(itself)).toHaveLength(itself.weighed.length + 1);
  });

  it('a name that would be code in a page is not', async () => {
    const [a, b] = variants(TENT, TENT);
    const comparison = await compared([{ ...a, name: '<script>alert(1)</script>' }, b], 10);
    expect(comparePage(comparison, [])).not.toContain('<script>');
  });

  it('a figure of which nothing is free is one dummy', async () => {
    const fixed = TENT.replace('{ from: 20, to: 60 }', '30').replace('{ from: 5, to: 60 }', '25');
    const comparison = await compared(variants(fixed, TENT), 10);
    expect(comparison.runs.slice(0, 5).map(({ table }) => table.size)).toEqual([1, 1, 1, 1, 1]);
  });
});

describe('variants', () => {
  it('whose wants differ are refused, every difference named', () => {
    const other = TENT.replace('least: 20', 'least: 45').replace('name: small', 'name: tiny');
    const make = () => mustWantTheSame(variants(TENT, TENT, other));
    expect(make).toThrow(InputError);
    expect(make).toThrow(
      /c\.yaml:\d+:\d+ {2}wants: .*'stands' has least 45, not 20.*'small' is only in a.yaml.*'tiny' is only in c.yaml/,
    );
  });

  it('may look at other panels', () => {
    const other = TENT.replaceAll('tent', 'roof');
    expect(() => mustWantTheSame(variants(TENT, other))).not.toThrow();
  });

  it('of a choice are its options, each fixed', () => {
    const text = TENT.replace('dims:', 'dims:\n  way: { choose: [in, out] }').replace(
      'length: 60',
      'length: 60, points: way',
    );
    const source = parseFigure(text, 'f.yaml');
    const made = variantsOfChoice(source, 'way');
    expect(made.map(({ name }) => name)).toEqual(['way in', 'way out']);
    expect(made.map(({ figure }) => figure.free.map(({ name }) => name))).toEqual([
      ['foot', 'slack'],
      ['foot', 'slack'],
    ]);
    expect(made.map(({ figure }) => figure.values(figure.start).get('way'))).toEqual(['in', 'out']);
    expect(() => variantsOfChoice(source, 'wy')).toThrow("did you mean 'way'?");
    expect(() => variantsOfChoice(source, 'foot')).toThrow('the choices are: way');
  });
});

describe('what a dummy takes', () => {
  it('of a tent: two sides and two tabs of one piece, glued twice', () => {
    const tent = assemble([
      {
        name: 'tent',
        kind: 'parallel-fold',
        at: 40,
        length: 60,
        glue: [30, 30],
        widths: [45, 45],
        tab: { width: 8 },
      },
    ]);
    // Tabs are mitred at 45°: trapezia of 60 and 60 − 2 · 8 mm, 8 mm high.
    const expected = (2 * 60 * 45 + 2 * ((60 + 44) / 2) * 8) / 100;
    const { card, pieces, glueJoints } = labourOf(tent);
    expect(card).toBeCloseTo(expected, 6);
    expect([pieces, glueJoints]).toEqual([1, 2]);
  });
});
