import { describe, expect, it } from 'vitest';
import type { Assembly } from '../../../src/motion/assembly.js';
import { POSE, writePose } from '../../../src/motion/pose.js';
import { partsOf, type Swept, sweptThrough } from '../../../src/score/trims/sweep.js';
import { assemble, open } from '../../support/assemble.js';
import { areaBeyond, ringOf } from '../areas.js';

const RADIANS = Math.PI / 180;

/** A sheet in the plane x, y, 20 mm over the left page; and a blade that stands square on it along x, from x = −80 to −60. */
function sheetAndBlade(
  place: (pageAngle: number) => { along: number; sunk: number },
  holes: number[][] = [],
): Assembly {
  const assembly = assemble([]);
  const sheet = assembly.addPanel({
    name: 'sheet',
    part: 'sheet',
    piece: 'sheet',
    outline: [0, 0, 60, 0, 60, 100, 0, 100],
    holes,
  });
  const blade = assembly.addPanel({
    name: 'blade',
    part: 'blade',
    piece: 'blade',
    outline: [0, 0, 20, 0, 20, 30, 0, 30],
  });
  assembly.addStep({
    part: 'both',
    place(poses) {
      const { along, sunk } = place(Math.acos(-poses[POSE]) / RADIANS);
      writePose(poses, sheet, -100, 50, 20, 1, 0, 0, 0, 1, 0);
      // Its lower edge lies `sunk` mm under the sheet.
      writePose(poses, blade, -80, 50 + along, 20 - sunk, 1, 0, 0, 0, 0, 1);
    },
  });
  return assembly;
}

const sweptBy = (assembly: Assembly) =>
  sweptThrough(
    assembly,
    open(assembly),
    assembly.panelNamed('sheet', ''),
    assembly.panelNamed('blade', ''),
    0.3,
  );

/** Least and greatest x and y of all corners. */
function extent(swept: readonly Swept[]): number[] {
  const corners = swept.flat();
  const [xs, ys] = [0, 1].map((axis) => corners.filter((_, i) => i % 2 === axis));
  return [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
}

describe('what is swept', () => {
  it('by a blade that travels through a sheet is a rectangle of the sheet, and a line of the blade', () => {
    // Sunk by 5 mm it travels from 10 to 55 mm along the sheet.
    const [onSheet, onBlade] = sweptBy(sheetAndBlade((a) => ({ along: 10 + a / 4, sunk: 5 })));
    expect(extent(onSheet)).toEqual([20, 40, 10, 55].map((v) => expect.closeTo(v, 6)));
    expect(extent(onBlade)).toEqual([0, 20, 5, 5].map((v) => expect.closeTo(v, 6)));
    // All of it: each quadrilateral is given end by end, where it was and where it is.
    const quads = onSheet.map((quad) => ringOf([0, 1, 2, 3, 6, 7, 4, 5].map((i) => quad[i])));
    const rectangle = ringOf([20, 10, 40, 10, 40, 55, 20, 55]);
    expect(areaBeyond(rectangle, quads)).toBeLessThan(0.01);
  });

  it('by a blade that sinks into a sheet is a line of the sheet, and a rectangle of the blade', () => {
    // It sinks by 12 mm, from 2 mm above it.
    const [onSheet, onBlade] = sweptBy(sheetAndBlade((a) => ({ along: 40, sunk: 10.004 - (12 * a) / 180 })));
    expect(extent(onSheet)).toEqual([20, 40, 40, 40].map((v) => expect.closeTo(v, 6)));
    const [left, right, low, high] = extent(onBlade);
    expect([left, right, high]).toEqual([0, 20, 10.004].map((v) => expect.closeTo(v, 6)));
    // Where it presses by less than 0.3 mm is left out, up to the last of the page angles 1/8° apart at which it does.
    expect(low).toBeLessThan(0.3);
    expect(low).toBeGreaterThan(0.3 - 12 / 180 / 8);
  });

  it('leaves out what a window lets through', () => {
    // A window over half of the blade's way and all of its width; and one over half of its width.
    const window = [15, 20, 15, 40, 45, 40, 45, 20];
    const [across] = sweptBy(sheetAndBlade((a) => ({ along: 10 + a / 4, sunk: 5 }), [window]));
    const places = partsOf(across).map((corners) => extent([corners]));
    expect(places.map((place) => place[2]).sort((a, b) => a - b)).toEqual(
      [10, 40].map((v) => expect.closeTo(v, 1)),
    );
    expect(places.map((place) => place[3]).sort((a, b) => a - b)).toEqual(
      [20, 55].map((v) => expect.closeTo(v, 1)),
    );
    const half = [15, 5, 15, 60, 30, 60, 30, 5];
    const [beside] = sweptBy(sheetAndBlade((a) => ({ along: 10 + a / 4, sunk: 5 }), [half]));
    expect(extent(beside)).toEqual([30, 40, 10, 55].map((v) => expect.closeTo(v, 6)));
  });

  it('is nothing where nothing pushes', () => {
    expect(sweptBy(sheetAndBlade(() => ({ along: 40, sunk: -1 })))).toEqual([[], []]);
    expect(sweptBy(sheetAndBlade(() => ({ along: 40, sunk: 0.2 })))).toEqual([[], []]);
  });
});

describe('places that are cut out', () => {
  const square = (x: number, y: number): number[] => [x, y, x + 2, y, x + 2, y + 2, x, y + 2];

  it('are one where they come within a millimetre of one another, also by way of a third', () => {
    const corners = (places: number[][]) => places.map((place) => place.length / 2).sort((a, b) => a - b);
    expect(corners(partsOf([square(0, 0), square(2.9, 0)]))).toEqual([8]);
    expect(corners(partsOf([square(0, 0), square(3.1, 0)]))).toEqual([4, 4]);
    expect(corners(partsOf([square(0, 0), square(5, 0), square(2.5, 0)]))).toEqual([12]);
    expect(corners(partsOf([square(0, 0), square(5, 0), square(2.5, 9)]))).toEqual([4, 4, 4]);
    expect(partsOf([])).toEqual([]);
  });
});
