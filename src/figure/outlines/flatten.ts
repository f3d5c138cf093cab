import svgpath from 'svgpath';

/** Farthest that a flattened curve lies from the curve, mm: a sixth of a common card's thickness. */
export const TOLERANCE = 0.05;

/** Most corners of one outline. */
const MOST_CORNERS_OF_PATH = 2000;
/** Longest path text, characters. */
const LONGEST_PATH = 100_000;
/** Beyond this a place is no part of a figure, mm. */
export const FARTHEST = 10_000;

export type Point = [number, number];

/** A path that cannot be made an outline; says what was found and what would do. */
export class PathFault extends Error {
  constructor(
    readonly found: string,
    readonly remedy: string,
  ) {
    super(`found ${found}; ${remedy}`);
    this.name = 'PathFault';
  }
}

/**
 * The rings of an SVG path, in mm, each closed without repeating its first point.
 * @param d the path as the SVG file has it
 * @param toMillimetres transforms in SVG's notation, the innermost first, that take the path's units to mm
 */
export function flatten(d: string, toMillimetres: readonly string[]): Point[][] {
  if (d.length > LONGEST_PATH)
    throw new PathFault(`a path of ${d.length} characters`, `at most ${LONGEST_PATH}; simplify it`);
  const path = svgpath(d);
  // Its own types leave it out.
  const { err } = path as typeof path & { readonly err: string };
  if (err !== '') throw new PathFault(`a path that cannot be read (${err})`, 'mend it in the drawing');
  for (const transform of toMillimetres) path.transform(transform);
  const rings: Point[][] = [];
  let ring: Point[] = [];
  let corners = 0;
  const add = (x: number, y: number) => {
    if (!(Math.abs(x) <= FARTHEST && Math.abs(y) <= FARTHEST))
      throw new PathFault('a path that leaves all bounds', `keep it within ${FARTHEST} mm`);
    if (++corners > MOST_CORNERS_OF_PATH)
      throw new PathFault(
        'a path of too many corners',
        `at most ${MOST_CORNERS_OF_PATH}, curves flattened; simplify it`,
      );
    ring.push([x, y]);
  };
  const curve = (...points: Point[]) => {
    const pieces = piecesOf(points);
    for (let i = 1; i <= pieces; i++) add(...onCurve(points, i / pieces));
  };
  path
    .abs()
    .unshort()
    .unarc()
    .iterate((segment, _index, x, y) => {
      switch (segment[0]) {
        case 'M':
          ring = [];
          rings.push(ring);
          add(segment[1], segment[2]);
          return;
        case 'L':
          return add(segment[1], segment[2]);
        case 'H':
          return add(segment[1], y);
        case 'V':
          return add(x, segment[1]);
        case 'Q':
          return curve([x, y], [segment[1], segment[2]], [segment[3], segment[4]]);
        case 'C':
          return curve([x, y], [segment[1], segment[2]], [segment[3], segment[4]], [segment[5], segment[6]]);
        case 'Z':
        case 'z':
          // What follows without an M begins where this ring began.
          ring = ring.slice(0, 1);
          rings.push(ring);
          return;
        default:
          throw new PathFault(`the path command ${segment[0]}`, 'use lines, curves and arcs');
      }
    });
  return rings.filter((each) => each.length > 1);
}

/**
 * How many chords of equal parameter keep a Bézier curve within the tolerance. A chord over a step h of the parameter is
 * off by at most h²/8 · max |B″|, and |B″| ≤ d(d − 1) · M, with d the degree and M the greatest second difference of the
 * control points; so n = √(d(d − 1) · M / (8 · tolerance)). (Wang's formula, 1984; from memory, derived here.)
 */
function piecesOf(points: readonly Point[]): number {
  let greatest = 0;
  for (let i = 0; i + 2 < points.length; i++) {
    const [a, b, c] = [points[i], points[i + 1], points[i + 2]];
    greatest = Math.max(greatest, Math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]));
  }
  const degree = points.length - 1;
  const pieces = Math.ceil(Math.sqrt((degree * (degree - 1) * greatest) / (8 * TOLERANCE)));
  if (!(pieces <= MOST_CORNERS_OF_PATH))
    throw new PathFault('a curve too large', `keep it within ${FARTHEST} mm, and simplify it`);
  return Math.max(1, pieces);
}

/** De Casteljau's construction: a point of a Bézier curve by repeated interpolation. */
function onCurve(points: readonly Point[], t: number): Point {
  let level = [...points];
  while (level.length > 1)
    level = level.slice(1).map(([x, y], i): Point => {
      const [x0, y0] = level[i];
      return [x0 + t * (x - x0), y0 + t * (y - y0)];
    });
  return level[0];
}
