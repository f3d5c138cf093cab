import { describe, expect, it } from 'vitest';
import { CannotBuild } from '../../src/motion/cannot-build.js';
import { assemble, type PlainPart } from '../support/assemble.js';

/** A sail on the left page with a notch cut into its top as deep as its middle, and a window at its lower left. */
const sail: PlainPart = {
  name: 'sail',
  kind: 'glued-piece',
  on: 'left page',
  at: [-120, 40],
  outline: {
    polygon: [
      [0, 0],
      [60, 0],
      [60, 60],
      [40, 60],
      [30, 30],
      [20, 60],
      [0, 60],
    ],
    holes: [
      [
        [5, 5],
        [15, 5],
        [15, 15],
        [5, 15],
      ],
    ],
  },
};

describe('a slot', () => {
  const slotIn = (...outline: [number, number][]) =>
    assemble([sail, { name: 'sleeve', kind: 'slot', on: 'sail', outline, passes: 'right page' }]);
  const box = (x: number, y: number, wide: number, high: number): [number, number][] => [
    [x, y],
    [x + wide, y],
    [x + wide, y + high],
    [x, y + high],
  ];

  it('may be cut where there is card all round it', () => {
    const assembly = slotIn(...box(20, 5, 30, 10));
    expect(assembly.panels[assembly.panelNamed('sail', '')].holes).toHaveLength(2);
  });

  it.each<[string, [number, number][], RegExp]>([
    ['past the edge', box(50, 5, 20, 10), /a hole meets the outline/],
    ['off the card altogether', box(70, 5, 20, 10), /a hole lies outside the outline/],
    ['across a notch, with all its corners on the card', box(10, 40, 40, 10), /a hole meets the outline/],
    ['over a window', box(10, 8, 20, 4), /two holes meet/],
    ['around a window', box(2, 2, 20, 20), /a hole lies in another/],
    ['inside a window', box(8, 8, 2, 2), /a hole lies in another/],
    ['along the edge', box(20, 0, 10, 10), /a hole meets the outline/],
    [
      'that crosses itself',
      [
        [30, 5],
        [50, 20],
        [50, 5],
        [30, 20],
      ],
      /meets itself/,
    ],
  ])('%s is refused', (_, outline, why) => {
    expect(() => slotIn(...outline)).toThrow(CannotBuild);
    expect(() => slotIn(...outline)).toThrow(/the slot cannot be cut out of 'sail'/);
    expect(() => slotIn(...outline)).toThrow(why);
  });
});

describe('a slit for a tongue', () => {
  const slitFrom = (from: [number, number], to: [number, number]) =>
    assemble([
      { name: 'rod', kind: 'link', from: [-60, 100], to: [-60, 150], width: 10 },
      { name: 'other', kind: 'link', from: [-60, 100], to: [-60, 60], width: 10 },
      { name: 'hub', kind: 'pivot', between: ['rod', 'other'], at: [0, 0], bends: 'left' },
      { name: 'peg', kind: 'pivot', between: ['other', 'left page'], at: [40, 0] },
      {
        name: 'foot',
        kind: 'tongue',
        panel: 'rod',
        at: [50, 0],
        slit: { panel: 'left page', line: [from, to] },
      },
    ]);

  // The slit is 2.7 mm wide, and a neck that turns in it comes as near to its ends as to its sides; the page is 210 mm high.
  it('goes on by half its width past both ends of the way of the neck', () => {
    for (const ends of [
      [120, 206],
      [206, 120],
      [150, 150.02],
    ] as const) {
      const { panels } = slitFrom([-60, ends[0]], [-60, ends[1]]);
      const ys = Array.from(panels[0].holes.at(-1) ?? []).filter((_, i) => i % 2 === 1);
      expect(Math.min(...ys)).toBeCloseTo(Math.min(...ends) - 1.35, 9);
      expect(Math.max(...ys)).toBeCloseTo(Math.max(...ends) + 1.35, 9);
    }
  });

  it('may not come out over it at either end, be it by its width alone, nor lie beside the page', () => {
    for (const [from, to] of [
      [120, 209.5],
      [209.5, 120],
      [120, 300],
      [220, 300],
    ])
      expect(() => slitFrom([-60, from], [-60, to])).toThrow(/the slit cannot be cut out of 'left page'/);
    expect(() => slitFrom([-0.5, 120], [-0.5, 180])).toThrow(/a hole meets the outline/);
    expect(() => slitFrom([20, 120], [20, 180])).toThrow(/a hole lies outside the outline/);
  });
});
