import { expect, it } from 'vitest';
import { LEFT_PAGE, RIGHT_PAGE } from '../../src/motion/assembly.js';
import { planarStep } from '../../src/motion/planar.js';

// Norton, Design of Machinery, example 4-1: links a = 40, b = 120, c = 80, d = 100 mm, θ₂ = 40°. Position of coupler and
// rocker: θ₃ = 20.3°, θ₄ = 57.3° open; −61.0°, −98.0° crossed. From memory.
it('the two circles of a parallel fold give the textbook four-bar its coupler and rocker, open and crossed', () => {
  const theta2 = (40 * Math.PI) / 180;
  const poses = new Float64Array(4 * 12);
  // The mechanism's plane is x, z, and the parent crease the crank's own pivot: one "page" is the crank, the other the frame.
  const [c, sin] = [Math.cos(theta2), Math.sin(theta2)];
  poses.set([c, 0, -sin, 0, 0, 1, 0, 0, sin, 0, c, 0], LEFT_PAGE * 12);
  poses.set([1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0], RIGHT_PAGE * 12);
  for (const [branch, theta3, theta4] of [
    [-1, 20.3, 57.3],
    [1, -61.0, -98.0],
  ] as const) {
    const misfits = new Float64Array(1);
    planarStep({
      part: 'coupler and rocker',
      on: [LEFT_PAGE, RIGHT_PAGE],
      panels: [2, 3],
      foot: [
        [40, 0],
        [100, 0],
      ],
      direction: [
        [0, -1],
        [0, -1],
      ],
      inward: [
        [1, 0],
        [1, 0],
      ],
      distances: [40, 100],
      widths: [120, 80],
      branch,
      way: 1,
      flatSide: 1,
      misfit: 0,
    }).place(poses, misfits);
    expect(misfits[0]).toBe(0);
    const direction = (k: number, sign: number) =>
      (Math.atan2(sign * poses[k * 12 + 9], sign * poses[k * 12 + 1]) * 180) / Math.PI;
    expect(direction(2, 1)).toBeCloseTo(theta3, 1);
    expect(direction(3, -1)).toBeCloseTo(theta4, 1);
  }
});
