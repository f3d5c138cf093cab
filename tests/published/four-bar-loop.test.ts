import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { between, DEGREES, fourBar, fourBarLoop, heading, lackOf } from '../motion/loop-figures.js';

/**
 * Norton, *Design of Machinery*, example 4-1 (from memory): a = 40, b = 120, c = 80, d = 100 mm, crank at 40°.
 * Open: link at 20.3°, rocker at 57.3°. Crossed: −61.0° and −98.0°.
 */
const NORTON = [40, 120, 80, 100];

describe('a planar four-bar, solved as a loop', () => {
  it.each([
    ['open', 1 as const, 20.3, 57.3],
    ['crossed', -1 as const, -61.0, -98.0],
  ])("stands as in Norton's example, %s", (_, branch, link, rocker) => {
    const start = 10 / DEGREES;
    const { loop, poses, turnTo } = fourBarLoop(NORTON, start, branch);
    for (let crank = 12; crank <= 40; crank += 2) turnTo(crank / DEGREES);
    expect(heading(poses, 2) * DEGREES).toBeCloseTo(link, 1);
    expect(heading(poses, 3) * DEGREES).toBeCloseTo(rocker, 1);
    expect(loop.gap).toBeLessThan(1e-7);
    expect(loop.tilt).toBeLessThan(1e-7);
  });

  it('holds to the closed form and to Freudenstein’s equation all the way round', () => {
    // Freudenstein (1955): K₁ cos θ₄ − K₂ cos θ₂ + K₃ = cos(θ₂ − θ₄), K₁ = d/a, K₂ = d/c, K₃ = (a² − b² + c² + d²)/2ac.
    const [a, b, c, d] = NORTON;
    const k3 = (a * a - b * b + c * c + d * d) / (2 * a * c);
    for (const branch of [1, -1] as const) {
      const { loop, poses, turnTo } = fourBarLoop(NORTON, 0, branch);
      for (let i = 1; i <= 180; i++) {
        const crank = (2 * i) / DEGREES;
        turnTo(crank);
        const closed = fourBar(a, b, c, d, crank, branch);
        const rocker = heading(poses, 3);
        expect(Math.abs(between(heading(poses, 2), closed?.link ?? Number.NaN))).toBeLessThan(1e-8);
        expect(Math.abs(between(rocker, closed?.rocker ?? Number.NaN))).toBeLessThan(1e-8);
        const left = (d / a) * Math.cos(rocker) - (d / c) * Math.cos(crank) + k3;
        expect(left).toBeCloseTo(Math.cos(crank - rocker), 8);
        // Nothing leaves the plane: with all normals parallel, there is nothing that could push it out.
        expect(Math.abs(poses[35]) + Math.abs(poses[47])).toBeLessThan(1e-9);
        expect(loop.jump).toBe(0);
      }
    }
  });

  it('closes wherever links of any lengths can, and elsewhere is least strained', () => {
    const length = fc.integer({ min: 200, max: 1200 }).map((n) => n / 10);
    const angle = fc.integer({ min: 0, max: 359 }).map((n) => n / DEGREES);
    fc.assert(
      fc.property(length, length, length, length, angle, (a, b, c, d, start) => {
        fc.pre(lackOf(a, b, c, d, start) < -0.01);
        const { loop, turnTo } = fourBarLoop([a, b, c, d], start, 1);
        for (let i = 1; i <= 90; i++) {
          const crank = start + (4 * i) / DEGREES;
          turnTo(crank);
          const lack = lackOf(a, b, c, d, crank);
          // Links that don't close lie in one line, and the gaps at the three pivots add up to what is lacking.
          if (lack < -0.1) expect(loop.gap).toBeLessThan(1e-5);
          else if (lack > 0.01) expect(loop.gap).toBeCloseTo(lack, 4);
        }
      }),
      { numRuns: 60, seed: 3 },
    );
  });
});
