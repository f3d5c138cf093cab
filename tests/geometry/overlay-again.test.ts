import { expect, it } from 'vitest';
import { pile } from '../../src/geometry/coverage.js';

const square = (x: number, y: number, side: number) => ({
  outline: Float64Array.of(x, y, x + side, y, x + side, y + side, x, y + side),
  holes: [],
});

it('a pile comes out to the last bit the same, whatever was piled before', () => {
  const shapes = Array.from({ length: 12 }, (_, i) => square(3.1 * i, 2.3 * ((i * 7) % 5), 20));
  const thick = shapes.map((_, i) => 0.1 + 0.013 * i);
  const alone = pile(shapes, thick);
  for (let i = 1; i < 12; i++) {
    pile(shapes.slice(0, i), thick.slice(12 - i));
    expect(pile(shapes, thick)).toEqual(alone);
  }
});
