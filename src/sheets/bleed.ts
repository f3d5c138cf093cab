import { circle, direction, edgesOf, type Point, type Ring, type Shape } from './plane.js';
import { solid, unionOf } from './region.js';

/**
 * The area that artwork must cover so that no bare card shows if the cut is off: the card and all that lies within
 * `reach` mm of its edge (the Minkowski sum with a disc: a band along every edge and a disc at every corner).
 */
export function withBleed(contours: readonly Ring[], reach: number): Shape[] {
  const bands = contours.flatMap((ring) =>
    edgesOf(ring).flatMap(([a, b]) => {
      const [ex, ey] = direction([a, b]);
      const beside = ([x, y]: Point, side: number): Point => [x - side * reach * ey, y + side * reach * ex];
      return [solid([beside(a, -1), beside(b, -1), beside(b, 1), beside(a, 1)]), solid(circle(a, reach, 48))];
    }),
  );
  return unionOf([...contours.map(solid), ...bands]);
}
