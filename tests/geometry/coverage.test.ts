import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { overlapArea, pile, SLIVER } from '../../src/geometry/coverage.js';
import { cardArea, holds, type Polygon } from '../../src/geometry/polygon.js';
import { type Point, random, rectangle, shape, star } from './panels.js';

const square = shape(rectangle(0, 0, 10, 10));
const at = (x: number, y: number, w: number, h: number) => shape(rectangle(x, y, x + w, y + h));

const turned = ({ outline, holes }: Polygon, angle: number): Polygon => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const turn = (ring: Float64Array) =>
    ring.map((_, i) => {
      const [x, y] = [ring[i & ~1], ring[i | 1]];
      return i % 2 === 0 ? c * x - s * y : s * x + c * y;
    });
  return { outline: turn(outline), holes: holes.map(turn) };
};

// Areas by hand (elementary).
describe('overlapArea', () => {
  it.each([
    ['corners over each other', at(5, 5, 10, 10), 25],
    ['the same square', square, 100],
    ['one within', at(2, 3, 4, 5), 20],
    ['side by side', at(10, 0, 10, 10), 0],
    ['corner to corner', at(10, 10, 10, 10), 0],
    ['far off', at(50, 0, 10, 10), 0],
    [
      'corners level but for round-off',
      shape([
        [0, 0],
        [10, 1e-310],
        [10, 10],
        [0, 10],
      ]),
      100,
    ],
    ['face down', shape(rectangle(5, 5, 15, 15).reverse()), 25],
    ['a square with a hole', shape(rectangle(0, 0, 10, 10), rectangle(3, 3, 6, 7)), 88],
    ['through the hole of a larger one', shape(rectangle(-9, -9, 19, 19), rectangle(0, 0, 10, 10)), 0],
    [
      // The square standing on its corner, half-diagonal 10 about 5, 5, loses four corners of the smaller: the corner
      // at 0, 0 lies |x − 5| + |y − 5| = 10 away, on its edge. So it holds the whole square.
      'a square on its corner around it',
      shape([
        [15, 5],
        [5, 15],
        [-5, 5],
        [5, -5],
      ]),
      100,
    ],
    [
      // Half-diagonal 7: each corner of the square is cut along |x − 5| + |y − 5| = 7, a triangle with legs of 3.
      'a square on its corner across it',
      shape([
        [12, 5],
        [5, 12],
        [-2, 5],
        [5, -2],
      ]),
      100 - 4 * 4.5,
    ],
  ])('%s', (_, other, area) => {
    expect(overlapArea(square, other)).toBeCloseTo(area, 12);
    expect(overlapArea(other, square)).toBeCloseTo(area, 12);
    const angle = 0.7;
    expect(overlapArea(turned(square, angle), turned(other, angle))).toBeCloseTo(area, 9);
  });

  it('of a shape with itself is its card', () => {
    const rnd = random(8);
    for (let n = 0; n < 200; n++) {
      const a = shape(
        star(5 + Math.floor(5 * rnd()), () => 12 + 30 * rnd(), 6 * rnd()),
        star(3 + Math.floor(5 * rnd()), () => 3 + 5 * rnd(), 6 * rnd()),
      );
      expect(overlapArea(a, a)).toBeCloseTo(cardArea(a), 9);
    }
  });
});

describe('pile', () => {
  it('adds the thicknesses where most lie on each other', () => {
    const found = pile([square, at(5, 5, 10, 10), at(8, 2, 4, 6)], [0.3, 0.2, 0.25]);
    // All three over [8, 10] × [5, 8]: 0.75 thick, 6 mm². Covered: 175, and the third’s own [10, 12] × [2, 5].
    expect(found?.thickness).toBeCloseTo(0.75, 12);
    expect(found?.area).toBeCloseTo(6, 12);
    expect(found?.covered).toBeCloseTo(181, 12);
    expect(found?.x).toBeCloseTo(9, 12);
    expect(found?.y).toBeCloseTo(6.5, 12);
  });

  it('prefers thick card to much card', () => {
    const found = pile([square, square, at(20, 0, 5, 5)], [0.3, 0.3, 0.7]);
    expect(found?.thickness).toBe(0.7);
    expect(found?.area).toBeCloseTo(25, 12);
  });

  it('tells one card from another that takes its place at the same height', () => {
    // A slip 2 wide over two boards, one above the other: 0.3 + 0.2 on the lower, 0.3 + 0.5 on the upper.
    const found = pile([at(10, 0, 2, 20), at(0, 0, 30, 10), at(0, 10, 30, 10)], [0.3, 0.2, 0.5]);
    expect(found?.thickness).toBeCloseTo(0.8, 12);
    expect(found?.area).toBeCloseTo(20, 12);
  });

  it('takes holes for holes', () => {
    const ringed = shape(rectangle(0, 0, 10, 10), rectangle(2, 2, 8, 8));
    expect(pile([ringed, at(3, 3, 4, 4)], [0.3, 0.2])?.thickness).toBe(0.3);
    expect(pile([ringed, at(1, 3, 4, 4)], [0.3, 0.2])?.thickness).toBeCloseTo(0.5, 12);
  });

  it('counts panels on both sides of a crease once each, wherever the motion left it', () => {
    // Four panels, two on either side of x = 0 and turned, whose creases lie up to 0.01 over each other.
    for (const angle of [0, 0.01, 0.4, 1.2, Math.PI / 2]) {
      for (const off of [0, 1e-9, 1e-6, 0.009]) {
        const panels = [at(-30, 0, 30, 40), at(-off, 0, 25, 40), at(-20, 5, 20 + off, 30), at(0, 5, 20, 30)];
        const found = pile(
          panels.map((p) => turned(p, angle)),
          [0.3, 0.3, 0.3, 0.3],
        );
        expect(found?.thickness).toBeCloseTo(0.6, 12);
      }
      const over = [at(-30, 0, 30 + 2 * SLIVER, 40), at(0, 0, 25, 40)];
      expect(
        pile(
          over.map((p) => turned(p, angle)),
          [0.3, 0.3],
        )?.thickness,
      ).toBeCloseTo(0.6, 12);
    }
  });

  it('has nothing to say of no card, or of slivers only', () => {
    expect(pile([], [])).toBeUndefined();
    expect(pile([at(0, 0, 30, 0.01)], [0.3])).toBeUndefined();
    expect(pile([turned(at(0, 0, 30, 0.01), 0.5)], [0.3])).toBeUndefined();
  });

  const cards = fc.array(
    fc.record({
      corners: fc.array(fc.double({ min: 4, max: 30, noNaN: true }), { minLength: 3, maxLength: 8 }),
      x: fc.double({ min: 0, max: 40, noNaN: true }),
      y: fc.double({ min: 0, max: 40, noNaN: true }),
      thickness: fc.integer({ min: 1, max: 10 }),
    }),
    { minLength: 1, maxLength: 9 },
  );
  const laid = (drawn: { corners: number[]; x: number; y: number }[]): Polygon[] =>
    drawn.map(({ corners, x, y }) =>
      shape(star(corners.length, (k) => corners[k]).map(([px, py]): Point => [px + x, py + y])),
    );

  it('names a place that is as thick as it says, and no place is thicker', () => {
    fc.assert(
      fc.property(
        cards,
        fc.array(fc.tuple(fc.nat(1000), fc.nat(1000)), { minLength: 50, maxLength: 50 }),
        (drawn, at) => {
          const shapes = laid(drawn);
          const thickAt = (x: number, y: number) =>
            shapes.reduce((sum, s, i) => sum + (holds(s, x, y) ? drawn[i].thickness : 0), 0);
          const found = pile(
            shapes,
            drawn.map((d) => d.thickness),
          );
          if (!found) throw new Error('no pile');
          expect(thickAt(found.x, found.y)).toBeCloseTo(found.thickness, 9);
          // Samples that stay as thick 0.05 mm all round lie in no sliver.
          for (const [u, v] of at) {
            const [x, y] = [u / 12 - 20, v / 12 - 20];
            const around = [
              [0, 0],
              [0.05, 0],
              [-0.05, 0],
              [0, 0.05],
              [0, -0.05],
            ].map(([dx, dy]) => thickAt(x + dx, y + dy));
            expect(Math.min(...around)).toBeLessThanOrEqual(found.thickness + 1e-9);
          }
        },
      ),
    );
  });

  it('covers the areas less the overlap of two, in any order and however turned', () => {
    fc.assert(
      fc.property(cards, fc.double({ min: 0, max: 6, noNaN: true }), (drawn, angle) => {
        const shapes = laid(drawn);
        const thicknesses = drawn.map((d) => d.thickness);
        const found = pile(shapes, thicknesses);
        const back = pile(
          [...shapes].reverse().map((s) => turned(s, angle)),
          [...thicknesses].reverse(),
        );
        expect(back?.covered).toBeCloseTo(found?.covered ?? Number.NaN, 6);
        if (shapes.length !== 2) return;
        const [a, b] = shapes;
        expect(found?.covered).toBeCloseTo(cardArea(a) + cardArea(b) - overlapArea(a, b), 6);
      }),
    );
  });
});
