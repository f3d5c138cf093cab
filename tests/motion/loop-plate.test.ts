import { describe, expect, it } from 'vitest';
import { Loop, type LoopJoint } from '../../src/motion/loop.js';
import { DEGREES } from './loop-figures.js';

/**
 * A plate on three parallel supports, solved as a loop: strips 1, 2 and 3 stand on creases of the page along y, at
 * x = −a, 0 and a, and lean by the same angle; their heads are creased to the plate, panel 4.
 */
function plateOn(heights: number[], a: number) {
  const joints = heights.map(
    (height, i): LoopJoint => ({
      kind: 'crease',
      a: i + 1,
      b: 4,
      // A strip's x axis runs along its crease, its y axis up.
      lineA: [
        [-15, height],
        [15, height],
      ],
      lineB: [
        [(i - 1) * a, -15],
        [(i - 1) * a, 15],
      ],
    }),
  );
  const loop = new Loop([4], joints);
  const poses = new Float64Array(60);
  const lean = (angle: number) => {
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    for (let k = 1; k <= 3; k++) poses.set([0, s, c, (k - 2) * a, 1, 0, 0, 0, 0, c, -s, 0], 12 * k);
  };
  lean(0);
  poses.set([1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, heights[0]], 48);
  loop.start(poses);
  return { loop, poses, lean };
}

describe('a plate on three parallel supports', () => {
  it('is carried with no misfit where their heights are equal', () => {
    const { loop, poses, lean } = plateOn([30, 30, 30], 40);
    for (let degrees = 2; degrees <= 88; degrees += 2) {
      lean(degrees / DEGREES);
      loop.solve(poses);
      expect(loop.gap).toBeLessThan(1e-8);
      expect(poses[48 + 3]).toBeCloseTo(30 * Math.sin(degrees / DEGREES), 8);
      expect(poses[48 + 11]).toBeCloseTo(30 * Math.cos(degrees / DEGREES), 8);
      expect(poses[48]).toBeCloseTo(1, 12);
    }
  });

  it('shares what one of them is too high among all three', () => {
    // Leaning by β, the third head is d (sin β, cos β) off the line of the other two. To first order the plate may
    // shift, which takes the mean of what is off, and turn, which takes from z the slope over x = −a, 0, a:
    //   x: d sin β (−1, −1, 2)/3        z: d cos β (1, −2, 1)/6
    // (ordinary least squares on three points). Two supports that place it would leave d at the third instead.
    const d = 0.6;
    const { loop, poses, lean } = plateOn([30, 30, 30 + d], 40);
    for (let degrees = 0; degrees <= 88; degrees += 4) {
      lean(degrees / DEGREES);
      loop.solve(poses);
      const x = d * Math.sin(degrees / DEGREES);
      const z = d * Math.cos(degrees / DEGREES);
      const outer = Math.hypot(x / 3, z / 6);
      const sum = outer + Math.hypot(x / 3, z / 3) + Math.hypot((2 * x) / 3, z / 6);
      expect(loop.gap).toBeCloseTo(sum, 2);
    }
    // Upright: d/6 + d/3 + d/6, off by the second order, d²/a.
    lean(0);
    for (let degrees = 88; degrees >= 0; degrees -= 4) {
      lean(degrees / DEGREES);
      loop.solve(poses);
    }
    expect(Math.abs(loop.gap - (2 * d) / 3)).toBeLessThan(0.004);
  });

  it('misfits in proportion to what is too high', () => {
    const gaps = [0.1, 0.2, 0.4].map((d) => {
      const { loop } = plateOn([30, 30 + d, 30], 40);
      return loop.gap / d;
    });
    // In the middle: d (−1, 2, −1)/3.
    for (const ratio of gaps) expect(ratio).toBeCloseTo(4 / 3, 3);
  });
});
