import { describe, expect, it } from 'vitest';
import { cardArea, signedArea } from '../../src/geometry/polygon.js';
import { CannotBuild } from '../../src/motion/cannot-build.js';
import { endAlong } from '../../src/parts/chain-end.js';
import { assemble } from '../support/assemble.js';

type Corners = readonly (readonly [number, number])[];
const box = (x: number, y: number, wide: number, high: number): Corners => [
  [x, y],
  [x + wide, y],
  [x + wide, y + high],
  [x, y + high],
];

/** A limb of this outline, 60 mm long or so, that ends at x = `end`: what is left of it. */
function ended(end: number, outline: Corners, holes: readonly Corners[] = []) {
  const assembly = assemble([]);
  const limb = assembly.addPanel({
    name: 'limb',
    part: 'limb',
    piece: 'limb',
    outline: outline.flat(),
    holes: holes.map((hole) => hole.flat()),
  });
  endAlong(assembly, limb, { x0: end, y0: 7, x1: end, y1: -3 }, 'at');
  return assembly.panels[limb];
}

describe('a limb that ends in a straight cut', () => {
  it('keeps its card on this side of it, and the holes there', () => {
    const left = ended(40, box(0, 0, 60, 10), [box(5, 3, 10, 4), box(45, 3, 5, 4)]);
    expect(Math.max(...left.outline.filter((_, i) => i % 2 === 0))).toBe(40);
    expect(left.holes.map((hole) => [...hole])).toEqual([box(5, 3, 10, 4).flat()]);
    expect(cardArea(left)).toBeCloseTo(400 - 40, 9);
  });

  it('stays on the side of most of its card, wherever it has most corners', () => {
    const toes = Array.from({ length: 20 }, (_, i): [number, number] => [60 - 0.1 * (i % 2), i / 2]);
    expect(signedArea(ended(50, [[0, 0], ...toes, [0, 10]]).outline)).toBeGreaterThan(480);
  });

  it('stays on the side of its hub, however much card lies beyond', () => {
    for (const end of [20, 30 - 1e-3, 30 + 1e-3, 45]) {
      const assembly = assemble([]);
      const limb = assembly.addPanel({
        name: 'limb',
        part: 'limb',
        piece: 'limb',
        outline: box(0, 0, 60, 10).flat(),
      });
      assembly.addJoint({
        kind: 'pivot',
        part: 'hip',
        between: [limb, 0],
        points: [
          [5, 5],
          [-50, 50],
        ],
        play: 0.4,
        hub: { hole: 2.5, waist: 2.1, shoulder: 5.5 },
        closesLoop: true,
      });
      endAlong(assembly, limb, { x0: end, y0: 7, x1: end, y1: -3 }, 'at');
      expect(cardArea(assembly.panels[limb])).toBeCloseTo(10 * end, 9);
    }
  });

  it('has no more corners where the cut goes through corners that it has', () => {
    for (const off of [0, 1e-9, -1e-9, 4e-15])
      expect(
        ended(40 + off, [
          [0, 0],
          [40, 0],
          [50, 5],
          [40, 10],
          [0, 10],
        ]).outline,
      ).toHaveLength(8);
  });

  it('may be concave, if one piece is left', () => {
    // A limb with a bight in its side, and one whose end is forked, cut off before the fork and through its prongs.
    const bight: Corners = [
      [0, 0],
      [60, 0],
      [60, 10],
      [30, 10],
      [25, 4],
      [20, 10],
      [0, 10],
    ];
    expect(signedArea(ended(40, bight).outline)).toBeCloseTo(400 - 30, 9);
    const fork: Corners = [
      [0, 0],
      [60, 0],
      [60, 3],
      [45, 5],
      [60, 7],
      [60, 10],
      [0, 10],
    ];
    expect(signedArea(ended(40, fork).outline)).toBeCloseTo(400, 9);
    // The prongs part at 45 mm, by 4 mm over the next 15.
    expect(signedArea(ended(51, fork).outline)).toBeCloseTo(510 - (6 * 6 * 4) / 15 / 2, 9);
  });

  it('is refused where it would fall into pieces, or a hole would be cut open', () => {
    // It runs out to 60 mm and back to 20 above: the cut would leave two bars apart.
    const hook: Corners = [
      [0, 0],
      [60, 0],
      [60, 30],
      [20, 30],
      [20, 20],
      [50, 20],
      [50, 10],
      [0, 10],
    ];
    expect(() => ended(40, hook)).toThrow(/'limb' does not end there in one straight cut/);
    const holed = (from: number, to: number) => ended(40, box(0, 0, 60, 10), [box(from, 3, to - from, 4)]);
    expect(() => holed(35, 45)).toThrow(CannotBuild);
    expect(() => holed(31, 40)).toThrow(CannotBuild);
    expect(holed(40, 50).holes).toEqual([]);
  });
});
