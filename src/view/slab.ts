import earcut from 'earcut';
import type { Polygon } from '../geometry/polygon.js';

/** A piece of card as triangles, with the lines along its edges; x, y, z in the panel's own frame, mm. */
export interface Slab {
  readonly positions: Float32Array<ArrayBuffer>;
  readonly normals: Float32Array<ArrayBuffer>;
  readonly indices: Uint32Array<ArrayBuffer>;
  /** Two points to a line: every edge of both faces. */
  readonly edges: Float32Array<ArrayBuffer>;
}

/** A line a x + b y = c. */
export type CutLine = readonly [a: number, b: number, c: number];

/**
 * A flat shape as card with thickness, from z = `low` to z = `high`, mm: two faces and the walls along outline and holes.
 * Every triangle runs counter-clockwise seen from outside.
 * @param lines along which faces and walls are cut, so that they can be bent there
 */
export function slabOf(
  { outline, holes }: Polygon,
  low: number,
  high: number,
  lines: readonly CutLine[] = [],
): Slab {
  const rings = [outline, ...holes].map((ring) => lines.reduce(cutRing, ring));
  const flat: number[] = rings.flatMap((ring) => [...ring]);
  const walls = flat.length / 2;
  let at = rings[0].length / 2;
  const holeStarts = rings.slice(1).map((hole) => {
    const start = at;
    at += hole.length / 2;
    return start;
  });
  const face = lines.reduce((cut, line) => cutTriangles(flat, cut, line), earcut(flat, holeStarts));
  const corners = flat.length / 2;
  // Four corners of its own to each wall, since a wall's normal is its own.
  const positions = new Float32Array(3 * (2 * corners + 4 * walls));
  const normals = new Float32Array(positions.length);
  const indices = new Uint32Array(2 * face.length + 6 * walls);
  const edges = new Float32Array(12 * walls);

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

/** Nearer to a line than this, mm, a corner lies on it. */
const ON = 1e-6;

/** A ring with a corner more wherever it crosses a line. */
function cutRing(ring: Float64Array, [a, b, c]: CutLine): Float64Array {
  const cut: number[] = [];
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const [from, to] = [a * ring[j] + b * ring[j + 1] - c, a * ring[i] + b * ring[i + 1] - c];
    if (Math.min(from, to) < -ON && Math.max(from, to) > ON) {
      const share = from / (from - to);
      cut.push(ring[j] + share * (ring[i] - ring[j]), ring[j + 1] + share * (ring[i + 1] - ring[j + 1]));
    }
    cut.push(ring[i], ring[i + 1]);
  }
  return cut.length === ring.length ? ring : Float64Array.from(cut);
}

/** Triangles cut by a line, each into up to three; new corners are put at the end of `flat`, one for each edge that is cut. */
function cutTriangles(flat: number[], face: readonly number[], [a, b, c]: CutLine): number[] {
  const far = (k: number) => a * flat[2 * k] + b * flat[2 * k + 1] - c;
  const known = new Map<string, number>();
  const crossing = (from: number, to: number): number => {
    const key = from < to ? `${from} ${to}` : `${to} ${from}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const share = far(from) / (far(from) - far(to));
    const [x0, y0, x1, y1] = [flat[2 * from], flat[2 * from + 1], flat[2 * to], flat[2 * to + 1]];
    known.set(key, flat.length / 2);
    flat.push(x0 + share * (x1 - x0), y0 + share * (y1 - y0));
    return flat.length / 2 - 1;
  };
  const cut: number[] = [];
  for (let i = 0; i < face.length; i += 3) {
    const corners = [face[i], face[i + 1], face[i + 2]];
    const sides = corners.map((corner) => (Math.abs(far(corner)) <= ON ? 0 : Math.sign(far(corner))));
    if (!(sides.includes(1) && sides.includes(-1))) {
      cut.push(...corners);
      continue;
    }
    for (const side of [1, -1]) {
      // What of the triangle lies on this side, as a fan.
      const part: number[] = [];
      for (let k = 0; k < 3; k++) {
        const next = (k + 1) % 3;
        if (sides[k] !== -side) part.push(corners[k]);
        if (sides[k] * sides[next] < 0) part.push(crossing(corners[k], corners[next]));
      }
      for (let k = 1; k + 1 < part.length; k++) cut.push(part[0], part[k], part[k + 1]);
    }
  }
  return cut;
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
