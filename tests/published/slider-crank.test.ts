import { describe, expect, it } from 'vitest';
import { Loop } from '../../src/motion/loop.js';
import { DEGREES, heading, layFlat } from '../motion/loop-figures.js';

/**
 * Any textbook of machines: a crank r and a rod l drive a slider on a line through the crank's centre to
 * x = r cos θ + √(l² − r² sin² θ). Here the slider is the rod's tongue in a slit of the page.
 */
function sliderCrank(r: number, l: number, slit: [number, number], play = 0) {
  const loop = new Loop(
    [2],
    [
      { kind: 'pivot', a: 1, b: 2, pointA: [r, 0], pointB: [0, 0], play: 0 },
      {
        kind: 'slide',
        a: 2,
        b: 0,
        pointA: [l, 0],
        alongB: [
          [slit[0], 0],
          [slit[1], 0],
        ],
        play,
      },
    ],
  );
  const poses = new Float64Array(36);
  layFlat(poses, 0, 0, 0, 0);
  layFlat(poses, 1, 0, 0, 0);
  layFlat(poses, 2, r, 0, 0);
  loop.start(poses);
  const turnTo = (theta: number) => {
    layFlat(poses, 1, 0, 0, theta);
    loop.solve(poses);
    const rod = heading(poses, 2);
    return { x: poses[27] + l * Math.cos(rod), y: poses[31] + l * Math.sin(rod) };
  };
  return { loop, turnTo };
}

const displacement = (r: number, l: number, theta: number) =>
  r * Math.cos(theta) + Math.sqrt(l * l - (r * Math.sin(theta)) ** 2);

describe('a slider-crank, solved as a loop with a tongue in a slit', () => {
  it.each([
    [20, 80],
    [35, 60],
    [50, 55],
  ])('moves as the textbook says: crank %d, rod %d', (r, l) => {
    const { loop, turnTo } = sliderCrank(r, l, [-200, 200]);
    for (let i = 1; i <= 180; i++) {
      const theta = (2 * i) / DEGREES;
      const end = turnTo(theta);
      expect(end.x).toBeCloseTo(displacement(r, l, theta), 6);
      expect(end.y).toBeCloseTo(0, 6);
      expect(loop.gap).toBeLessThan(1e-6);
    }
  });

  it('misses the end of a slit that is too short by what the rod goes past it', () => {
    // The tongue should go from x = 100 to 60; the slit ends at 70. At 180° crank and rod are in line with the slit,
    // so the 10 mm that are lacking show whole.
    const { loop, turnTo } = sliderCrank(20, 80, [70, 120]);
    let inside = 0;
    for (let i = 1; i <= 90; i++) {
      const theta = (2 * i) / DEGREES;
      turnTo(theta);
      if (displacement(20, 80, theta) > 70.01) {
        expect(loop.gap).toBeLessThan(1e-6);
        inside++;
      } else expect(loop.gap).toBeGreaterThan(0);
    }
    expect(inside).toBeGreaterThan(40);
    expect(loop.gap).toBeCloseTo(10, 6);
  });

  it('gives half the play to either side, and no more', () => {
    const { loop, turnTo } = sliderCrank(20, 80, [-200, 200], 2);
    let least = 0;
    let most = 0;
    for (let i = 1; i <= 360; i++) {
      const { y } = turnTo((2 * i) / DEGREES);
      expect(loop.gap).toBeLessThan(1e-6);
      least = Math.min(least, y);
      most = Math.max(most, y);
    }
    expect(least).toBeCloseTo(-1, 4);
    expect(most).toBeCloseTo(1, 4);
  });
});
