import { expect, it } from 'vitest';
import { solve } from '../../src/search/least-squares.js';
import { stream } from '../../src/search/random.js';

it('solves what is solved by hand: 4 x + 2 y = 2 and 2 x + 3 y = 3, and another right side at once', () => {
  const sides = Float64Array.of(2, 8, 3, 8);
  solve(Float64Array.of(4, Number.NaN, 2, 3), sides, 2);
  for (const [i, value] of [0, 1, 1, 2].entries()) expect(sides[i]).toBeCloseTo(value, 12);
});

it('finds again what a random matrix was multiplied with', () => {
  const random = stream(1, 'least squares');
  const size = 9;
  const rows = Array.from({ length: size + 3 }, () => Array.from({ length: size }, () => random.normal()));
  const matrix = Float64Array.from({ length: size * size }, (_, at) =>
    rows.reduce((sum, row) => sum + row[Math.floor(at / size)] * row[at % size], 0),
  );
  const truth = Array.from({ length: size }, () => random.normal());
  const sides = Float64Array.from({ length: size }, (_, i) =>
    truth.reduce((sum, value, j) => sum + matrix[i * size + j] * value, 0),
  );
  solve(matrix, sides, size);
  for (const [i, value] of truth.entries()) expect(sides[i]).toBeCloseTo(value, 9);
});

it('refuses a matrix that is not positive definite', () => {
  expect(() => solve(Float64Array.of(1, 0, 2, 1), Float64Array.of(1, 1), 2)).toThrow('positive definite');
});
