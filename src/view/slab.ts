import earcut from 'earcut';
import type { Shape } from '../geometry/polygon.js';

/** A piece of card as triangles, with the lines along its edges; x, y, z in the panel's own frame, mm. */
export interface Slab {
  readonly positions: Float32Array<ArrayBuffer>;
  readonly normals: Float32Array<ArrayBuffer>;
  readonly indices: Uint32Array<ArrayBuffer>;
  /** Two points to a line: every edge of both faces. */
  readonly edges: Float32Array<ArrayBuffer>;
}

/**
 * A flat shape as card with thickness, from z = `low` to z = `high`, mm: two faces and the walls along outline and holes.
 * Every triangle runs counter-clockwise seen from outside.
 */
export function slabOf({ outline, holes }: Shape, low: number, high: number): Slab {
  const rings = [outline, ...holes];
  const flat: number[] = rings.flatMap((ring) => [...ring]);
  const corners = flat.length / 2;
  let at = outline.length / 2;
  const holeStarts = holes.map((hole) => {
    const start = at;
    at += hole.length / 2;
    return start;
  });
  const face = earcut(flat, holeStarts);
  // Four corners of its own to each wall, since a wall's normal is its own.
  const positions = new Float32Array(3 * (2 * corners + 4 * corners));
  const normals = new Float32Array(positions.length);
  const indices = new Uint32Array(2 * face.length + 6 * corners);
  const edges = new Float32Array(12 * corners);

  for (let i = 0; i < corners; i++) {
    positions.set([flat[2 * i], flat[2 * i + 1], high], 3 * i);
    positions.set([flat[2 * i], flat[2 * i + 1], low], 3 * (corners + i));
    normals.set([0, 0, 1], 3 * i);
    normals.set([0, 0, -1], 3 * (corners + i));
  }
  for (let i = 0; i < face.length; i += 3) {
    const [a, b, c] = [face[i], face[i + 1], face[i + 2]];
    const upward = cross(flat, a, b, c) > 0;
    indices.set(upward ? [a, b, c] : [a, c, b], i);
    const under = upward ? [a, c, b] : [a, b, c];
    indices.set(
      under.map((corner) => corners + corner),
      face.length + i,
    );
  }

  let wall = 0;
  rings.forEach((ring, r) => {
    // Card lies to the left of an outline that runs counter-clockwise, and of a hole that runs clockwise.
    const turned = area(ring) > 0 === (r === 0) ? 1 : -1;
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const [x0, y0, x1, y1] =
        turned === 1
          ? [ring[j], ring[j + 1], ring[i], ring[i + 1]]
          : [ring[i], ring[i + 1], ring[j], ring[j + 1]];
      const long = Math.hypot(x1 - x0, y1 - y0) || 1;
      const first = 2 * corners + 4 * wall;
      positions.set([x0, y0, low, x1, y1, low, x1, y1, high, x0, y0, high], 3 * first);
      for (let k = 0; k < 4; k++) normals.set([(y1 - y0) / long, (x0 - x1) / long, 0], 3 * (first + k));
      indices.set([first, first + 1, first + 2, first, first + 2, first + 3], 2 * face.length + 6 * wall);
      edges.set([x0, y0, high, x1, y1, high, x0, y0, low, x1, y1, low], 12 * wall);
      wall++;
    }
  });
  return { positions, normals, indices, edges };
}

function cross(flat: readonly number[], a: number, b: number, c: number): number {
  return (
    (flat[2 * b] - flat[2 * a]) * (flat[2 * c + 1] - flat[2 * a + 1]) -
    (flat[2 * b + 1] - flat[2 * a + 1]) * (flat[2 * c] - flat[2 * a])
  );
}

function area(ring: Float64Array): number {
  let twice = 0;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2)
    twice += ring[j] * ring[i + 1] - ring[i] * ring[j + 1];
  return twice / 2;
}
