import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { factor, solveFactored } from '../../src/motion/loop/cholesky.js';
import type { LoopJoint, Point } from '../../src/motion/loop/joints.js';
import { Pull } from '../../src/motion/loop/pull.js';
import { moveBody, partOfMotion, rotationBetween } from '../../src/motion/loop/rigid.js';
import { tiesOf } from '../../src/motion/loop/ties.js';

const number = (most: number) => fc.integer({ min: -10000, max: 10000 }).map((n) => (n / 10000) * most);
const point = fc.tuple(number(40), number(40)) as fc.Arbitrary<Point>;
const vector = (most: number) => fc.tuple(number(most), number(most), number(most));
const rigid = fc.record({ turn: vector(2), shift: vector(30) });
const play = fc.constantFrom(0, 0.3);

/** Three free panels and a driven one, with a joint of each kind. */
const figure = fc.record({
  places: fc.array(rigid, { minLength: 4, maxLength: 4 }),
  joints: fc.tuple(
    fc.record({
      kind: fc.constant('pivot' as const),
      a: fc.constant(0),
      b: fc.constant(1),
      pointA: point,
      pointB: point,
      play,
    }),
    fc.record({
      kind: fc.constant('pivot' as const),
      a: fc.constant(3),
      b: fc.constant(1),
      pointA: point,
      pointB: point,
      play,
    }),
    fc.record({
      kind: fc.constant('crease' as const),
      a: fc.constant(2),
      b: fc.constant(0),
      lineA: fc.tuple(point, point),
      lineB: fc.tuple(point, point),
    }),
    fc.record({
      kind: fc.constant('slide' as const),
      a: fc.constant(1),
      b: fc.constant(2),
      pointA: point,
      alongB: fc.tuple(point, point),
      play,
    }),
  ),
});

function placed(places: { turn: number[]; shift: number[] }[]): Float64Array {
  const poses = new Float64Array(12 * places.length);
  places.forEach(({ turn, shift }, k) => {
    poses.set([1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0], 12 * k);
    moveBody(poses, k, new Float64Array(3), Float64Array.from(turn), Float64Array.from(shift));
  });
  return poses;
}

function strainOf(joints: readonly LoopJoint[], poses: Float64Array): Pull {
  const pull = new Pull(3, tiesOf(joints, new Map([0, 1, 2, 3].map((k) => [k, k]))));
  pull.faceAs(poses);
  return pull;
}

/** The poses moved by a step over the unknowns. */
function moved(pull: Pull, poses: Float64Array, step: Float64Array): Float64Array {
  pull.measure(poses);
  const centre = pull.centre.slice();
  const out = poses.slice();
  for (let k = 0; k < 3; k++) {
    const turn = step.slice(6 * k + 3, 6 * k + 6).map((x) => x / pull.reach[k]);
    moveBody(out, k, centre.slice(3 * k, 3 * k + 3), turn, step.slice(6 * k, 6 * k + 3));
  }
  return out;
}

describe('what a set of poses costs', () => {
  it('is, for two faces on a hub out of parallel, half the square of 0.2 mm for each radian of their chord', () => {
    // Panel 1 is turned by 0.7 about a line in its own plane through the hub, and then about the hub by any angle.
    const hub = { kind: 'pivot', a: 0, b: 1, pointA: [0, 0], pointB: [0, 0], play: 0 } as const;
    for (const facing of [0, Math.PI]) {
      const still = { turn: [0, 0, 0], shift: [0, 0, 0] };
      const poses = placed([still, { turn: [facing, 0, 0], shift: [0, 0, 0] }, still, still]);
      const pull = strainOf([hub], poses);
      expect(pull.measure(poses)).toBeCloseTo(0, 12);
      moveBody(poses, 1, new Float64Array(3), Float64Array.of(0.7, 0, 0), new Float64Array(3));
      expect(pull.tilt(poses, 0)).toBeCloseTo(0.7, 9);
      expect(pull.measure(poses)).toBeCloseTo(0.5 * (0.2 * 2 * Math.sin(0.35)) ** 2, 12);
      // A millimetre apart costs half a square millimetre more.
      moveBody(poses, 1, new Float64Array(3), new Float64Array(3), Float64Array.of(0, 0.6, 0.8));
      expect(pull.gap(poses, 0)).toBeCloseTo(1, 12);
      expect(pull.measure(poses)).toBeCloseTo(0.5 + 0.5 * (0.2 * 2 * Math.sin(0.35)) ** 2, 12);
    }
  });

  it('has the gradient and the Hessian that central differences give', () => {
    fc.assert(
      fc.property(figure, fc.boolean(), ({ places, joints }, withSlide) => {
        const used = withSlide ? joints : joints.slice(0, 3);
        fc.pre(Math.hypot(joints[3].alongB[1][0] - joints[3].alongB[0][0]) > 1);
        fc.pre(Math.hypot(joints[2].lineA[1][0] - joints[2].lineA[0][0]) > 1);
        fc.pre(Math.hypot(joints[2].lineB[1][0] - joints[2].lineB[0][0]) > 1);
        const poses = placed(places);
        const pull = strainOf(used, poses);
        const cost = (step: Float64Array) => pull.measure(moved(pull, poses, step));
        // At the rim of a hole the stiffness leaps, so that differences across it say nothing.
        fc.pre([0, 1].every((k) => pull.gap(poses, k) === 0 || pull.gap(poses, k) > 0.05));
        pull.measure(poses);
        const gradient = pull.gradient.slice();
        const hessian = pull.hessian.slice();
        const h = 1e-3;
        const at = (...moves: [number, number][]) => {
          const step = new Float64Array(18);
          for (const [i, by] of moves) step[i] += by * h;
          return cost(step);
        };
        for (let i = 0; i < 18; i++) {
          expect(Math.abs((at([i, 1]) - at([i, -1])) / (2 * h) - gradient[i])).toBeLessThan(1e-3);
          // A slide's Hessian leaves a term out on purpose.
          if (withSlide) continue;
          for (let j = 0; j <= i; j++) {
            const mixed =
              at([i, 1], [j, 1]) - at([i, 1], [j, -1]) - at([i, -1], [j, 1]) + at([i, -1], [j, -1]);
            expect(Math.abs(mixed / (4 * h * h) - hessian[18 * i + j])).toBeLessThan(2e-3);
          }
        }
      }),
      { numRuns: 40, seed: 4 },
    );
  });

  it('costs nothing within play, and half the square of what goes beyond', () => {
    const joint = { kind: 'pivot', a: 0, b: 3, pointA: [10, 0], pointB: [0, 0], play: 0.4 } as const;
    const poses = placed([0, 1, 2, 3].map(() => ({ turn: [0, 0, 0], shift: [0, 0, 0] })));
    const ties = tiesOf([joint], new Map([0, 1, 2, 3].map((k) => [k, k])));
    const pull = new Pull(3, ties);
    for (const [x, beyond] of [
      [-10, 0],
      [-9.8, 0],
      [-9.7, 0.1],
      [-8, 1.8],
    ]) {
      poses[3] = x;
      expect(pull.measure(poses)).toBeCloseTo(beyond ** 2 / 2, 12);
      expect(pull.gap(poses, 0)).toBeCloseTo(beyond, 12);
    }
  });
});

describe('rigid motions', () => {
  it('give back the rotation vector that they were made with, up to a half turn', () => {
    const half = number(Math.PI / 2 - 1e-9).map((n) => n + Math.PI / 2);
    fc.assert(
      fc.property(
        rigid,
        vector(1),
        fc.oneof(half, fc.constantFrom(0, 1e-9, 1e-5, 3.1, Math.PI - 1e-6)),
        (start, axis, angle) => {
          const length = Math.hypot(...axis);
          fc.pre(length > 1e-3);
          const turn = Float64Array.from(axis, (x) => (x * angle) / length);
          const from = placed([start]);
          const to = from.slice();
          moveBody(to, 0, Float64Array.from([1, 2, 3]), turn, new Float64Array(3));
          const found = new Float64Array(3);
          rotationBetween(from, to, 0, found);
          for (let i = 0; i < 3; i++) expect(found[i]).toBeCloseTo(turn[i], 7);
        },
      ),
    );
  });

  it('pass through the middle of a turn about a far axis, and end where they should', () => {
    fc.assert(
      fc.property(rigid, vector(1), vector(100), (start, turn, axisAt) => {
        const from = placed([start]);
        const whole = from.slice();
        const half = from.slice();
        const nowhere = new Float64Array(3);
        moveBody(whole, 0, Float64Array.from(axisAt), Float64Array.from(turn), nowhere);
        moveBody(
          half,
          0,
          Float64Array.from(axisAt),
          Float64Array.from(turn, (x) => x / 2),
          nowhere,
        );
        const out = new Float64Array(12);
        partOfMotion(from, whole, 0, 0.5, out);
        for (let i = 0; i < 12; i++) expect(out[i]).toBeCloseTo(half[i], 7);
        partOfMotion(from, whole, 0, 1, out);
        for (let i = 0; i < 12; i++) expect(out[i]).toBeCloseTo(whole[i], 7);
      }),
    );
  });
});

describe('the factor of a symmetric matrix', () => {
  it('solves what it was made for, and refuses a matrix that is not positive definite', () => {
    const size = 6;
    const entries = fc.array(number(1), { minLength: size * size, maxLength: size * size });
    fc.assert(
      fc.property(entries, fc.array(number(5), { minLength: size, maxLength: size }), (b, x) => {
        // A = B Bᵀ + I with a corner of zeros, so that rows start late.
        const at = (i: number, k: number) =>
          (i < 3 && k < 3) || (i >= 3 && k >= 3) || k === i - 3 ? b[size * i + k] : 0;
        const a = new Float64Array(size * size);
        for (let i = 0; i < size; i++)
          for (let j = 0; j < size; j++) {
            a[size * i + j] = i === j ? 1 : 0;
            for (let k = 0; k < size; k++) a[size * i + j] += at(i, k) * at(j, k);
          }
        const right = Float64Array.from(x, (_, i) =>
          x.reduce((sum, value, j) => sum + a[size * i + j] * value, 0),
        );
        const starts = Int32Array.from(x, (_, i) => x.findIndex((_, j) => a[size * i + j] !== 0 || i === j));
        const l = new Float64Array(size * size);
        expect(factor(a, starts, size, 0, l)).toBe(true);
        const found = new Float64Array(size);
        solveFactored(l, starts, size, right, found);
        for (let i = 0; i < size; i++) expect(found[i]).toBeCloseTo(x[i], 8);
        a[size * 5 + 5] = -1;
        expect(factor(a, starts, size, 0, l)).toBe(false);
      }),
    );
  });
});
