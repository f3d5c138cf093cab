import { expect, it } from 'vitest';
import { LEFT_PAGE, RIGHT_PAGE } from '../../src/motion/assembly.js';
import { planarStep } from '../../src/motion/planar.js';

// Norton, Design of Machinery, example 4-1: links a = 40, b = 120, c = 80, d = 100 mm, θ₂ = 40°. Position of coupler and
// rocker: θ₃ = 20.3°, θ₄ = 57.3° open; −61.0°, −98.0° crossed. From memory.
it('the two circles of a parallel fold give the textbook four-bar its coupler and rocker, open and crossed', () => {
  const theta2 = (40 * Math.PI) / 180;
  const poses = new Float64Array(4 * 12);
  // The mechanism's plane is x, z: "pages" stand for the crank's end (40 mm along its direction) and the far pivot.
  const identity = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0];
  poses.set(identity, LEFT_PAGE * 12);
  poses.set(identity, RIGHT_PAGE * 12);
  poses[3] = 40 * Math.cos(theta2);
  poses[11] = 40 * Math.sin(theta2);
  poses[12 + 3] = 100;
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
        [0, 0],
        [0, 0],
      ],
      direction: [
        [0, -1],
        [0, -1],
      ],
      distances: [0, 1000],
      widths: [120, 80],
      branch,
      points: branch === 1 ? 'in' : 'out',
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
