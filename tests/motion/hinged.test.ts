import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Line } from '../../src/geometry/line.js';
import { hingedStep } from '../../src/motion/hinged.js';
import { moveBody } from '../../src/motion/loop/rigid.js';

const component = fc.double({ min: -3, max: 3, noNaN: true });
const vector = fc.tuple(component, component, component);
const at = (poses: Float64Array, k: number, x: number, y: number) =>
  [0, 4, 8].map((r) => poses[12 * k + r] * x + poses[12 * k + r + 1] * y + poses[12 * k + r + 3]);
const apart = (p: number[], q: number[]) => Math.hypot(...p.map((v, i) => v - q[i]));

describe('a panel on supports whose first two hinge lines lie on one line', () => {
  // Supports 0 and 2 are one rigid thing, 1 another, and the panel is 3.
  const first: Line = { x0: 10, y0: 0, x1: 40, y1: 0 };
  const second: Line = { x0: 25, y0: 0, x1: 58, y1: 0 };
  const third: Line = { x0: -9, y0: 30, x1: 35, y1: 30 };
  const own: Line[] = [
    { x0: 0, y0: 0, x1: 30, y1: 0 },
    { x0: 2, y0: 20, x1: 22, y1: 20 },
    { x0: 0, y0: 50, x1: 30, y1: 50 },
  ];

  it('is a rigid panel still, on its first line, and every misfit is how far it is off that support', () => {
    fc.assert(
      fc.property(vector, vector, (turn, shift) => {
        const poses = new Float64Array(48);
        for (const k of [0, 1, 2]) {
          poses.set([1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0], 12 * k);
          moveBody(poses, k, new Float64Array(3), Float64Array.from(turn), Float64Array.from(shift));
        }
        const misfits = Float64Array.of(-1, -1, -1, -1, -1);
        const lines = [first, second, third].map((line, panel) => ({ panel, line }));
        hingedStep('shelf', 3, lines, own, 1).place(poses, misfits);

        const column = (c: number) => [0, 4, 8].map((r) => poses[36 + r + c]);
        for (const a of [0, 1, 2])
          for (const b of [0, 1, 2]) {
            const dot = column(a).reduce((sum, v, i) => sum + v * column(b)[i], 0);
            expect(dot).toBeCloseTo(a === b ? 1 : 0, 9);
          }
        expect(apart(at(poses, 3, 0, 0), at(poses, 0, 10, 0))).toBeLessThan(1e-9);
        expect(apart(at(poses, 3, 30, 0), at(poses, 0, 40, 0))).toBeLessThan(1e-9);
        for (const i of [1, 2]) {
          const { line, panel } = lines[i];
          const off = Math.max(
            apart(at(poses, 3, own[i].x0, own[i].y0), at(poses, panel, line.x0, line.y0)),
            apart(at(poses, 3, own[i].x1, own[i].y1), at(poses, panel, line.x1, line.y1)),
          );
          expect(off).toBeGreaterThan(10);
          // Beside the whole of it, what of it lies in the panel's plane.
          expect(misfits[2 * i]).toBeCloseTo(off, 9);
          expect(misfits[2 * i - 1]).toBeLessThanOrEqual(off + 1e-9);
        }
        expect(misfits[0]).toBe(-1);
      }),
      { seed: 5, numRuns: 200 },
    );
  });
});
