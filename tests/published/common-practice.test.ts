import { describe, expect, it } from 'vitest';
import { ClashTest } from '../../src/score/clash/clash.js';
import { measureFlatness } from '../../src/score/flat.js';
import { assemble, open, type PlainPart, turnOf } from '../support/assemble.js';

// What makers know from the table: common practice, no source.

/** Turn of an arm, in plan, from the open page to a nearly shut one, degrees: positive to the left. */
const turnInPlan = (parts: PlainPart[], panel: string) => turnOf(parts, panel, 10, 'left page');

describe('paired arms on the counter-folds of one crease', () => {
  const tent = { name: 'roof', kind: 'parallel-fold', at: 20, length: 170, glue: [30, 30], widths: [60, 60] };
  const arm = (name: string, at: number, more: object) => ({
    name,
    kind: 'counter-fold',
    on: 'roof ridge',
    at,
    diagonal: 30,
    side: 14,
    length: 18,
    ...more,
  });

  it('part when their folds point opposite ways along it', () => {
    const parts = [tent, arm('one', 60, { toward: 'end' }), arm('other', 120, { toward: 'start' })];
    expect(turnInPlan(parts, 'one left') * turnInPlan(parts, 'other left')).toBeLessThan(0);
  });

  it('go the same way when one is set the wrong way round: the classic mistake', () => {
    const parts = [tent, arm('one', 60, { toward: 'end' }), arm('other', 120, { toward: 'end' })];
    expect(turnInPlan(parts, 'one left')).toBeCloseTo(turnInPlan(parts, 'other left'), 9);
  });

  it('still go the same way when one is merely folded out instead of in', () => {
    const parts = [tent, arm('one', 60, {}), arm('other', 120, { fold: 'out', triangle: 45 })];
    expect(turnInPlan(parts, 'one left') * turnInPlan(parts, 'other left')).toBeGreaterThan(0);
  });
});

describe('one small corner', () => {
  // A tent, and beside it on the left page a standing V-fold whose tip meets the tent's side as the page shuts.
  const parts = (tip: number): PlainPart[] => [
    { name: 'tent', kind: 'parallel-fold', at: 12, length: 30, glue: [20, 20], widths: [40, 40] },
    {
      name: 'sail',
      kind: 'v-fold',
      at: 60,
      glue: [60, 60],
      panels: [75, 75],
      feet: [40, 40],
      ridge: 40,
      outlines: {
        left: {
          polygon: [
            [0, 0],
            [40, 0],
            [20, tip],
            [10, 37.3],
          ],
        },
        right: {
          polygon: [
            [0, 0],
            [40, 0],
            [10, 37.3],
          ],
        },
      },
    },
  ];
  const worst = (tip: number) => {
    const assembly = assemble(parts(tip));
    return new ClashTest().run(assembly, open(assembly), 0.3).worst;
  };

  it('that catches is found, and cutting it away frees the page', () => {
    const reaching = worst(62);
    expect(reaching?.push).toBeGreaterThan(0.3);
    expect(worst(30)).toBeNull();
  });
});

describe('the pile', () => {
  it('of a tent is its two sides, its two tabs and nothing more, where they lie on each other', () => {
    const assembly = assemble([
      { name: 'tent', kind: 'parallel-fold', at: 50, length: 80, glue: [20, 20], widths: [40, 40] },
    ]);
    // Shut, both feet lie 20 mm from the gutter and both sides on each other; each tab (inner) lies beside its side.
    expect(measureFlatness(assembly, open(assembly)).shut?.pile).toBeCloseTo(2 * 0.3, 9);
  });
});
