import { describe, expect, it } from 'vitest';
import { parseFigure } from '../../src/figure/text/source.js';
import { circle } from '../../src/geometry/plane.js';
import { costsFrom, DEFAULT_COSTS } from '../../src/sheets/costs.js';
import { costInWords, costOf, strokesOf } from '../../src/sheets/guide/costs.js';
import { assemble } from '../support/assemble.js';
import { example, plan } from './figures.js';

const costs = (text: string) => costsFrom(parseFigure(text, 'costs.yaml'));
const box = () =>
  plan(assemble([{ name: 'box', kind: 'parallel-fold', shape: 'box', at: 40, length: 60, glue: [30, 20] }]), {
    paper: 'A3',
  });

describe('the work on a figure', () => {
  it('has a stroke of the knife from corner to corner; a round hole is one', () => {
    expect(
      strokesOf([
        [0, 0],
        [10, 0],
        [10, 5],
        [0, 5],
      ]),
    ).toBe(4);
    expect(strokesOf(circle([0, 0], 3, 36))).toBe(1);
  });

  it('is counted by kind, and its minutes are the counts times what one takes', () => {
    const { counts, minutes, total, sum } = costOf(box(), 1, DEFAULT_COSTS);
    // The page has 4 edges and the gutter; the box is a strip with two tabs, 8 corners, 3 creases.
    expect(counts).toEqual({ stroke: 4 + 8, crease: 1 + 3, glue: 2, hub: 0, pass: 0 });
    expect(minutes.stroke).toBeCloseTo(12 * 0.15, 9);
    expect(total).toBeCloseTo(12 * 0.15 + 4 * 0.3 + 2, 9);
    expect(sum).toBeNull();
    const { counts: rope } = costOf(plan(example('tightrope')), 1, DEFAULT_COSTS);
    expect([rope.hub, rope.glue]).toEqual([7, 9]);
  });

  it('costs what sheets, glue and hours cost, a copy; what has no price is not in the sum, and that is said', () => {
    const given = costs(
      'minutes: { stroke: 0, crease: 15, glue: 0 }\nprices: { currency: EUR, sheet: 0.5, hour: 20 }',
    );
    const twelve = costOf(box(), 12, given);
    // Four creases take an hour. One sheet was laid out; of twelve copies each has a twelfth.
    expect(twelve.hand).toBeCloseTo(20, 9);
    expect(twelve.sheets).toBeCloseTo(0.5 / 12, 9);
    expect(twelve.glue).toBeNull();
    expect(twelve.sum).toBeCloseTo(20 + 0.5 / 12, 9);
    expect(costInWords(twelve, given)).toMatch(
      /A copy costs 20\.04 EUR: sheets 0\.04, work by hand 20\.00, without glue: no price is given\./,
    );
    expect(costInWords(costOf(box(), 1, DEFAULT_COSTS), DEFAULT_COSTS)).not.toMatch(/costs/);
  });

  it('has a table that says where it is wrong', () => {
    expect(() => costs('minutes: { strokes: 1 }')).toThrow(/costs\.yaml:1:12 .*did you mean 'stroke'/);
    expect(() => costs('prices: { sheet: -1 }')).toThrow(/prices\.sheet.*at least 0/);
    expect(() => costs('prices: { currency: "<b>" }')).toThrow(/such as EUR/);
    expect(costs('')).toEqual(DEFAULT_COSTS);
  });
});
