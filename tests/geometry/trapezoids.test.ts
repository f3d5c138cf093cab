import { describe, expect, it } from 'vitest';
import { cardArea, type Polygon } from '../../src/geometry/polygon.js';
import { visitCells } from '../../src/geometry/trapezoids.js';
import { type Point, random, shape, star } from './panels.js';

/** Every shape's area, counted cell by cell: each cell as often as it is covered. */
function counted(shapes: readonly Polygon[]): number {
  let sum = 0;
  let apart = 0;
  visitCells(
    shapes,
    shapes.map(() => 1),
    (cell) => {
      sum += cell.count * cell.width * cell.height;
      apart = Math.max(apart, Math.abs(cell.weight - cell.count));
    },
  );
  expect(apart).toBeCloseTo(0, 9);
  return sum;
}
const total = (shapes: readonly Polygon[]) => shapes.reduce((sum, s) => sum + cardArea(s), 0);

// The cells make up every shape exactly, so their areas, each as often as it is covered, add up to the shapes' own.
describe('visitCells', () => {
  it('loses no area where many edges cross at one point', () => {
    // Rectangles turned about the middle of a long side: as many edges meet there as there are rectangles.
    for (const many of [3, 4, 7, 12, 31]) {
      for (const turn of [0, 0.1, 0.7, 1.3]) {
        const shapes = Array.from({ length: many }, (_, k) => {
          const angle = turn + (2 * Math.PI * k) / many;
          const [c, s] = [Math.cos(angle), Math.sin(angle)];
          const corners: Point[] = [
            [-20, 0],
            [20, 0],
            [20, 9],
            [-20, 9],
          ];
          return shape(corners.map(([x, y]): Point => [c * x - s * y + 37, s * x + c * y + 11]));
        });
        expect(counted(shapes)).toBeCloseTo(total(shapes), 6);
      }
    }
  });

  it('loses no area where edges lie on each other but for round-off', () => {
    const rnd = random(6);
    for (let n = 0; n < 100; n++) {
      const first = star(7, () => 10 + 20 * rnd(), 6 * rnd());
      const shapes = Array.from({ length: 6 }, () =>
        shape(first.map(([x, y]): Point => [x + 1e-9 * rnd(), y + 1e-9 * rnd()])),
      );
      expect(counted(shapes)).toBeCloseTo(total(shapes), 5);
    }
  });

  it('loses no area of random heaps', () => {
    const rnd = random(7);
    for (let n = 0; n < 50; n++) {
      const shapes = Array.from({ length: 30 }, () => {
        const [dx, dy] = [80 * rnd(), 80 * rnd()];
        const points = star(3 + Math.floor(6 * rnd()), () => 10 + 20 * rnd(), 6 * rnd());
        return shape(points.map(([x, y]): Point => [x + dx, y + dy]));
      });
      expect(counted(shapes)).toBeCloseTo(total(shapes), 6);
    }
  });

  it('grows its room for crossings: two combs across each other', () => {
    // 40 bars across 40 bars, each 1 wide: 1600 unit squares covered twice.
    const bars = (across: boolean) =>
      Array.from({ length: 40 }, (_, k): Polygon => {
        const points: Point[] = [
          [2 * k, 0],
          [2 * k + 1, 0],
          [2 * k + 1, 80],
          [2 * k, 80],
        ];
        const [c, s] = [Math.cos(0.5), Math.sin(0.5)];
        return shape(
          points
            .map(([x, y]): Point => (across ? [80 - y, x] : [x, y]))
            .map(([x, y]): Point => [c * x - s * y, s * x + c * y]),
        );
      });
    let twice = 0;
    const shapes = [...bars(false), ...bars(true)];
    visitCells(shapes, new Float64Array(80), (cell) => {
      if (cell.count === 2) twice += cell.width * cell.height;
    });
    expect(twice).toBeCloseTo(1600, 6);
  });
});
