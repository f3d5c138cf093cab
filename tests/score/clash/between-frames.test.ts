import { describe, expect, it } from 'vitest';
import type { Assembly } from '../../../src/motion/assembly.js';
import { POSE, writePose } from '../../../src/motion/pose.js';
import { ClashTest } from '../../../src/score/clash/clash.js';
import { assemble, open } from '../../support/assemble.js';

const RADIANS = Math.PI / 180;

/**
 * A sheet, and a blade square to it that is sunk into it by so much, mm, at each page angle; both beyond the head of the
 * pages, which so never come down on them.
 */
function sheetAndBlade(sunk: (pageAngle: number) => number): Assembly {
  const assembly = assemble([]);
  const [sheet, blade] = [
    { name: 'sheet', outline: [0, 0, 60, 0, 60, 100, 0, 100] },
    { name: 'blade', outline: [0, 0, 20, 0, 20, 30, 0, 30] },
  ].map(({ name, outline }) => assembly.addPanel({ name, part: name, piece: name, outline }));
  assembly.addStep({
    part: 'both',
    place(poses) {
      writePose(poses, sheet, -100, 300, 20, 1, 0, 0, 0, 1, 0);
      writePose(poses, blade, -80, 340, 20 - sunk(Math.acos(-poses[POSE]) / RADIANS), 1, 0, 0, 0, 0, 1);
    },
  });
  return assembly;
}

/** It comes down and goes up again around 91°, where it is sunk by `deepest`; at the frames at 90° and 92° by 2 mm less. */
const dipping = (deepest: number) => sheetAndBlade((a) => deepest - 2 * (a - 91) ** 2);
const clashOf = (assembly: Assembly) => new ClashTest().run(assembly, open(assembly), 0.3);

describe('a blade that dips into a sheet between two frames', () => {
  it('catches where it is deepest', () => {
    const { worst, firstPageAngle } = clashOf(dipping(1.2));
    expect(worst?.push).toBeCloseTo(1.2, 2);
    expect(Math.abs((worst?.pageAngle ?? 0) - 91)).toBeLessThan(0.1);
    // 1.2 − 2 (φ − 91)² = 0.3
    expect(Math.abs((firstPageAngle ?? 0) - (91 + Math.sqrt(0.45)))).toBeLessThan(0.05);
  });

  it('does not where it only presses, or keeps clear', () => {
    expect(clashOf(dipping(0.25)).worst).toBeNull();
    expect(clashOf(dipping(-0.1))).toEqual({ worst: null, firstPageAngle: null, press: 0 });
  });
});
