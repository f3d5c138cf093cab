import { describe, expect, it } from 'vitest';
import { findGlueFaults } from '../../src/score/glue.js';
import { assemble, open, type PlainPart } from '../support/assemble.js';

const faultsOf = (parts: PlainPart[]) => {
  const assembly = assemble(parts);
  return findGlueFaults(assembly, open(assembly));
};
const fold = (name: string, more: object): PlainPart => ({
  name,
  kind: 'v-fold',
  at: 100,
  glue: [60, 60],
  panels: [70, 70],
  feet: [40, 40],
  ridge: 40,
  ...more,
});

describe('glue', () => {
  it('on bare card is no fault', () => {
    expect(faultsOf([fold('sail', { start: 12 })])).toEqual([]);
  });

  it('that hangs over the edge of what receives it is told, with its area', () => {
    // A tent at the foot of the page, its outer tabs 8 mm wide and 60 mm long, on a page that ends 5 mm beyond its feet.
    const assembly = assemble(
      [
        {
          name: 'hut',
          kind: 'parallel-fold',
          at: 20,
          length: 60,
          glue: [45, 45],
          widths: [50, 50],
          tab: { width: 8, side: 'outer', mitre: 90 },
        },
      ],
      { width: 50, height: 100 },
    );
    const faults = findGlueFaults(assembly, open(assembly));
    expect(faults.map(({ tab, kind }) => `${tab} ${kind}`).sort()).toEqual([
      'hut left tab off card',
      'hut right tab off card',
    ]);
    for (const { area } of faults) expect(area).toBeCloseTo(3 * 60, 6);
  });

  it('of one tab on the tab of another part is told, with the area that they share', () => {
    const tent = (name: string, at: number): PlainPart => ({
      name,
      kind: 'parallel-fold',
      at,
      length: 50,
      glue: [30, 30],
      widths: [50, 50],
      tab: { width: 8, mitre: 90 },
    });
    const faults = faultsOf([tent('one', 20), tent('other', 60)]).filter(({ kind }) => kind === 'on a tab');
    // They share 10 mm of their length on each page.
    expect(faults).toHaveLength(2);
    for (const { area } of faults) expect(area).toBeCloseTo(8 * 10, 6);
  });
});
