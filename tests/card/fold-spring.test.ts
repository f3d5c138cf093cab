import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  foldState,
  newFoldState,
  parallelSpring,
  parentsAngle,
  vertexSpring,
} from '../../src/card/fold-spring.js';
import { GRADES, gradeOf } from '../../src/card/grade.js';
import { stiffnessOf } from '../../src/card/stock.js';

const RADIANS = Math.PI / 180;
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** A tent or a V-fold, off by `error` mm or degrees, of card so thick. */
const folds = fc
  .record({
    vertex: fc.boolean(),
    foot: number(15, 40),
    more: number(2, 35),
    way: fc.constantFrom(1 as const, -1 as const),
  })
  .map(({ vertex, foot, more, way }) => (error: number, thickness: number) => {
    const card = stiffnessOf(thickness, thickness * 800).any;
    const pile = 2 * thickness;
    if (!vertex)
      return parallelSpring([foot, foot], [foot + more + error, foot + more], 60, way, card, thickness, pile);
    const [g, p] = [(foot + 20) * RADIANS, (foot + 20 + more) * RADIANS];
    return vertexSpring([g, g], [p + error * RADIANS, p], 75, 5, way, card, thickness, pile);
  });

const slopeAt = (spring: ReturnType<typeof parallelSpring>, degrees: number) =>
  foldState(spring, degrees * RADIANS, newFoldState()).slope;
/** The hardest push from open to 2°, N mm: the greatest of steps of 0.1°, then the peak (a kink) between its neighbours. */
const hardest = (spring: ReturnType<typeof parallelSpring>): number => {
  const push = (degrees: number) => -slopeAt(spring, degrees);
  let [at, most] = [2, 0];
  for (let degrees = 2; degrees <= 60; degrees += 0.1)
    if (push(degrees) > most) [at, most] = [degrees, push(degrees)];
  let [low, high] = [Math.max(2, at - 0.1), at + 0.1];
  while (high - low > 1e-9) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
    if (push(a) < push(b)) low = a;
    else high = b;
  }
  return Math.max(most, push(low));
};

describe('the force to shut a fold', () => {
  it('is the slope of its energy, at every angle', () => {
    fc.assert(
      fc.property(folds, number(-2.5, 2.5), number(1, 179), (fold, error, degrees) => {
        const spring = fold(error, 0.3);
        const energy = (at: number) => foldState(spring, at * RADIANS, newFoldState()).energy;
        const step = 1e-4;
        const slope = (energy(degrees + step) - energy(degrees - step)) / (2 * step * RADIANS);
        expect(Math.abs(slope - slopeAt(spring, degrees))).toBeLessThan(1e-3 * (1 + Math.abs(slope)));
      }),
      { numRuns: 300 },
    );
  });

  it('is never less for a greater error, nor for thicker card', () => {
    fc.assert(
      fc.property(
        folds,
        number(0, 2),
        number(0, 0.5),
        number(0.2, 0.4),
        number(1, 1.3),
        (fold, error, more, t, x) => {
          const plain = hardest(fold(error, t));
          expect(hardest(fold(error + more, t))).toBeGreaterThanOrEqual(plain * (1 - 1e-6));
          expect(hardest(fold(error, t * x))).toBeGreaterThanOrEqual(plain * (1 - 1e-6));
        },
      ),
      { numRuns: 100 },
    );
  });

  it('leaps nowhere', () => {
    fc.assert(
      fc.property(folds, number(-2.5, 2.5), number(0.5, 179), (fold, error, degrees) => {
        const here = slopeAt(fold(error, 0.3), degrees);
        const there = slopeAt(fold(error + 1e-6, 0.3), degrees + 1e-6);
        expect(Math.abs(here - there)).toBeLessThan(1e-2 * (1 + Math.abs(here)));
      }),
      { numRuns: 300 },
    );
  });

  it('is none for a fold that is exact', () => {
    fc.assert(
      fc.property(folds, number(0, 180), (fold, degrees) => {
        const { forced, energy, slope, bow } = foldState(fold(0, 0.3), degrees * RADIANS, newFoldState());
        expect([forced, energy, slope, bow].every((value) => Math.abs(value) < 1e-6)).toBe(true);
      }),
    );
  });
});

it('the angle between the parents is told from how far apart the feet are', () => {
  const spring = parallelSpring([30, 20], [40, 50], 60, 1, { pull: 900, bend: 8 }, 0.3, 0);
  for (const degrees of [0, 1, 40, 179, 180]) {
    const half = Math.sin((degrees * RADIANS) / 2);
    expect(parentsAngle(spring, 100 + 4 * 600 * half * half) / RADIANS).toBeCloseTo(degrees, 5);
  }
});

it('a dummy works up to 5 N and 1 %, is stiff up to 15 N and 2 %, and jams or tears beyond', () => {
  expect(gradeOf(5, 0.01, 0.01)).toBe('works');
  expect(gradeOf(5.1, 0, 0)).toBe('stiff');
  expect(gradeOf(0, 0, 0.011)).toBe('stiff');
  expect(gradeOf(15.1, 0, 0)).toBe('jams or tears');
  expect(gradeOf(0, 0.021, 0)).toBe('jams or tears');
  expect(gradeOf(Number.NaN, 0, 0)).toBe('jams or tears');
  expect(GRADES).toHaveLength(3);
});
