import { describe, expect, it } from 'vitest';
import { crossing, newCrossing } from '../../src/geometry/crossing.js';
import { crossingCases } from './crossing-cases.js';
import { carry, type Point, pose, poses, random, randomMotion, rectangle, redrawn, shape } from './panels.js';

// Depth, push and place from the formulas in crossing-cases.ts (our own derivations, no source), each pair carried to
// a place of its own by a rigid motion and drawn in axes of its own. Right to 0.05 mm and 0.1°.
describe('crossings known by hand', () => {
  it('are more than two hundred', () => expect(crossingCases.length).toBeGreaterThan(200));

  crossingCases.forEach((c, n) => {
    it(c.name, () => {
      const rnd = random(n + 1);
      const carried = randomMotion(rnd, 150);
      const a = redrawn({ shape: c.a.shape, pose: carry(c.a.pose, carried) }, rnd);
      const b = redrawn({ shape: c.b.shape, pose: carry(c.b.pose, carried) }, rnd);
      for (const swapped of [false, true]) {
        const [p, q] = swapped ? [b, a] : [a, b];
        const out = newCrossing();
        const crosses = crossing(p.panel.shape, q.panel.shape, poses(p.panel.pose, q.panel.pose), 0, 1, out);
        expect(crosses).toBe(c.expected !== undefined);
        if (!c.expected) continue;
        expect(Math.abs(out.depth - c.expected.depth)).toBeLessThan(0.05);
        expect(Math.abs(out.push - c.expected.push)).toBeLessThan(Math.min(0.05, 0.05 * c.expected.push));
        expect(Math.abs((out.angle * 180) / Math.PI - c.expected.angle)).toBeLessThan(
          Math.min(0.1, c.expected.angle / 20),
        );
        const onP: Point = [out.ax, out.ay];
        const onQ: Point = [out.bx, out.by];
        const [onA, onB] = swapped ? [onQ, onP] : [onP, onQ];
        if (c.expected.onA) expect(distance(onA, a.point(c.expected.onA))).toBeLessThan(0.05);
        if (c.expected.onB) expect(distance(onB, b.point(c.expected.onB))).toBeLessThan(0.05);
      }
    });
  });
});

const distance = (p: Point, q: Point) => Math.hypot(p[0] - q[0], p[1] - q[1]);

describe('crossing', () => {
  const flat = pose([0, 0, 0], [1, 0, 0], [0, 1, 0]);
  const upright = pose([0, 0, 0], [1, 0, 0], [0, 0, 1]);
  const board = shape(rectangle(-50, -50, 50, 50));

  it('leaves the result as it was when panels do not cross', () => {
    const out = { depth: 1, push: 2, angle: 3, ax: 4, ay: 5, bx: 6, by: 7 };
    expect(crossing(board, shape(rectangle(-5, 1, 5, 9)), poses(flat, upright), 0, 1, out)).toBe(false);
    expect(out).toEqual({ depth: 1, push: 2, angle: 3, ax: 4, ay: 5, bx: 6, by: 7 });
  });

  it('takes a panel of very many corners after one of few', () => {
    // A saw of 200 teeth, all 3 below the board, with slits 0.2 wide between: 200 stretches; then a plain plate again.
    const saw: Point[] = [[-50, 20]];
    for (let k = 0; k < 200; k++) {
      const x = -50 + 0.5 * k;
      saw.push([x, -3], [x + 0.3, -3], [x + 0.3, 5], [x + 0.5, 5]);
    }
    saw.push([50.5, 5], [50.5, 20]);
    const out = newCrossing();
    const both = poses(flat, upright);
    expect(crossing(board, shape(saw), both, 0, 1, out)).toBe(true);
    // The tooth at the board's end slides off by 0.3; any other must be lifted out by its 3.
    expect(out.depth).toBeCloseTo(3, 9);
    expect(crossing(board, shape(rectangle(-5, -2, 5, 9)), both, 0, 1, out)).toBe(true);
    expect(out.depth).toBeCloseTo(2, 9);
  });

  it('puts the tip on card where a part has two feet that reach as deep', () => {
    const footed = shape([
      [-12, 20],
      [-12, -5],
      [-8, -5],
      [-8, -2],
      [8, -2],
      [8, -5],
      [12, -5],
      [12, 20],
    ]);
    const out = newCrossing();
    expect(crossing(board, footed, poses(flat, upright), 0, 1, out)).toBe(true);
    expect(out.depth).toBeCloseTo(5, 12);
    expect(Math.abs(out.bx)).toBeCloseTo(10, 12);
    expect(out.by).toBeCloseTo(-5, 12);
  });

  it('tells of several places the one of the greatest push, though another is deeper', () => {
    // At 10° a prong 5 deep pushes 5 sin 10° = 0.87; one 8 deep but only 0.5 within the board's edge pushes 0.5.
    const comb = shape([
      [-20, 20],
      [-20, 4],
      [-15, 4],
      [-15, -5],
      [-5, -5],
      [-5, 4],
      [50 - 0.5, 4],
      [50 - 0.5, -8],
      [60, -8],
      [60, 20],
    ]);
    const tilted = pose([0, 0, 0], [1, 0, 0], [0, Math.cos(Math.PI / 18), Math.sin(Math.PI / 18)]);
    const out = newCrossing();
    expect(crossing(board, comb, poses(flat, tilted), 0, 1, out)).toBe(true);
    expect(out.push).toBeCloseTo(5 * Math.sin(Math.PI / 18), 9);
    expect(out.depth).toBeCloseTo(5, 9);
  });
});
