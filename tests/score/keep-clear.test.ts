import { describe, expect, it } from 'vitest';
import type { ClearSpace } from '../../src/figure/keep-clear.js';
import { type Assembly, RIGHT_PAGE } from '../../src/motion/assembly.js';
import { POSE, writePose } from '../../src/motion/pose.js';
import { findIntrusion } from '../../src/score/keep-clear.js';
import { assemble, open } from '../support/assemble.js';

const RADIANS = Math.PI / 180;

/** A space over the left page, 40 mm along the page, 30 mm up the gutter and 12 mm high. */
const LETTER: ClearSpace = { name: 'letter', on: 'left page', least: [-100, 50, 1], most: [-60, 80, 13] };

/**
 * A card 10 mm wide and 20 mm high that goes where it is put at each page angle, degrees: lying flat over the left page, or
 * standing upright on it, across the page.
 */
function card(at: (pageAngle: number) => [number, number, number], upright = false): Assembly {
  const assembly = assemble([]);
  const panel = assembly.addPanel({
    name: 'card',
    part: 'card',
    piece: 'card',
    outline: [0, 0, 10, 0, 10, 20, 0, 20],
  });
  assembly.addStep({
    part: 'card',
    place(poses) {
      const [x, y, z] = at(Math.acos(-poses[POSE]) / RADIANS);
      writePose(poses, panel, x, y, z, 1, 0, 0, 0, upright ? 0 : 1, upright ? 1 : 0);
    },
  });
  return assembly;
}

const intrusion = (assembly: Assembly, ...boxes: ClearSpace[]) => {
  const { panel, ...found } = findIntrusion(assembly, open(assembly), boxes);
  return { ...found, panel: panel === null ? null : assembly.panels[panel].name };
};

describe('card in a space to be kept clear', () => {
  it.each([
    // In the midst of it, 4 mm over the floor of 1 mm: out by way of the floor; 3 mm under the lid: by the lid.
    ['lying low', [-85, 55, 5], false, 4],
    ['lying high', [-85, 55, 10], false, 3],
    // With its right 2 mm, left 2.5 mm; with its upper 1.5 mm, lower 2 mm.
    ['from the fore-edge', [-108, 55, 7], false, 2],
    ['from the gutter', [-62.5, 55, 7], false, 2.5],
    ['from the foot', [-85, 31.5, 7], false, 1.5],
    ['from the head', [-85, 78, 7], false, 2],
    // Standing in it, from floor to lid: soonest out sideways, by way of the foot 7 mm away or the head 6.
    ['standing near the foot', [-85, 57, 0], true, 7],
    ['standing near the head', [-85, 74, 0], true, 6],
    // Standing higher: only its lower 5 mm are under the lid.
    ['standing over it', [-85, 65, 8], true, 5],
    // In the midst of all that, sideways it would have to go farther than the whole height of 12 mm.
    ['standing right through it', [-85, 65, 0], true, 12],
    ['beside it', [-58, 55, 7], false, 0],
    ['beneath it', [-85, 55, 0.9], false, 0],
    ['over it', [-85, 55, 13.1], false, 0],
  ] as const)('is as deep as the way out is long: %s', (_, [x, y, z], upright, depth) => {
    const found = intrusion(
      card(() => [x, y, z], upright),
      LETTER,
    );
    expect(found.depth).toBeCloseTo(depth, 9);
    if (depth > 0) expect(found).toMatchObject({ panel: 'card', box: 'letter' });
    else expect(found).toEqual({ depth: 0, pageAngle: null, panel: null, box: null });
  });

  it('is told where it is deepest, of all page angles and spaces', () => {
    // It sinks from 16 mm to 8 mm at 90°, and rises again: 13 − 8 under the lid.
    const sinking = () => card((a) => [-85, 55, 16 - 8 * Math.sin(a * RADIANS)]);
    const found = intrusion(sinking(), LETTER);
    expect(found).toMatchObject({ pageAngle: 90, box: 'letter' });
    expect(found.depth).toBeCloseTo(5, 9);
    const shelf: ClearSpace = { name: 'shelf', on: 'left page', least: [-100, 50, 1], most: [-60, 80, 14.5] };
    expect(intrusion(sinking(), LETTER, shelf)).toMatchObject({
      box: 'shelf',
      depth: expect.closeTo(6.5, 9),
    });
    expect(intrusion(sinking(), shelf, LETTER)).toMatchObject({
      box: 'shelf',
      depth: expect.closeTo(6.5, 9),
    });
  });

  it('counts only while the other page leaves the space room', () => {
    // The right page comes down on the edge nearest to the gutter first, 60 mm out and 13 mm high, at atan(13/60) =
    // 12.2°; the card goes in below 20°, and is 20 − φ under the lid.
    const found = intrusion(
      card((a) => [-85, 55, 13 - Math.max(0, 20 - a)]),
      LETTER,
    );
    expect(found.pageAngle).toBe(14);
    expect(found.depth).toBeCloseTo(6, 9);
    const lateBy = (pageAngle: number) => card((a) => [-85, 55, a > pageAngle ? 14 : 8]);
    expect(intrusion(lateBy(13), LETTER).depth).toBe(0);
    expect(intrusion(lateBy(15), LETTER)).toMatchObject({ pageAngle: 14, depth: expect.closeTo(5, 9) });
  });

  it('on the right page turns with it', () => {
    // As the right page has it, the other way round: 60 to 100 mm out from the gutter.
    const lamp: ClearSpace = { name: 'lamp', on: 'right page', least: [60, 50, 1], most: [100, 80, 13] };
    const assembly = assemble([]);
    const panel = assembly.addPanel({
      name: 'card',
      part: 'card',
      piece: 'card',
      outline: [0, 0, 10, 0, 10, 20, 0, 20],
    });
    // A card that is always square to the right page, its foot in it: far out until the page stands upright, then 3.5 mm
    // inside the space's outer edge.
    assembly.addStep({
      part: 'card',
      place(poses) {
        const i = RIGHT_PAGE * POSE;
        const out = poses[i] < -1e-9 ? 96.5 : 130;
        writePose(
          poses,
          panel,
          out * poses[i],
          55,
          out * poses[i + 8],
          0,
          1,
          0,
          poses[i + 2],
          0,
          poses[i + 10],
        );
      },
    });
    const found = intrusion(assembly, lamp);
    expect(found).toMatchObject({ panel: 'card', box: 'lamp' });
    expect(found.pageAngle).toBeLessThan(90);
    expect(found.depth).toBeCloseTo(3.5, 9);
  });
});
