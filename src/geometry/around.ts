import { convexHull } from './hull.js';

type Point = readonly [number, number];

/** An arc is drawn in chords of at most so much, radians. */
const CHORD = Math.PI / 8;

/**
 * The convex outline around points, so far from them. Straight corners go on to where the edges meet, but no farther past
 * a point than the margin along either edge; so a straight line gets a rectangle around it.
 * @returns corners, counter-clockwise
 */
export function outlineAround(
  points: readonly Point[],
  margin: number,
  corners: 'round' | 'straight',
): Point[] {
  const hull = hullOf(points);
  const n = hull.length;
  if (n === 1) return aroundOne(hull[0], margin, corners);
  return hull.flatMap((point, i): Point[] => {
    const before = direction(hull[(i + n - 1) % n], point);
    const after = direction(point, hull[(i + 1) % n]);
    const turn = Math.atan2(
      before[0] * after[1] - before[1] * after[0],
      before[0] * after[0] + before[1] * after[1],
    );
    const angle = turn < 1e-9 ? Math.PI : turn;
    return cornerAt(
      point,
      Math.atan2(before[1], before[0]) - Math.PI / 2,
      n === 2 ? Math.PI : angle,
      margin,
      corners,
    );
  });
}

/** From the outward direction `from`, turning on by `turn`. */
function cornerAt(
  [x, y]: Point,
  from: number,
  turn: number,
  margin: number,
  corners: 'round' | 'straight',
): Point[] {
  const at = (angle: number, far: number): Point => [x + far * Math.cos(angle), y + far * Math.sin(angle)];
  if (corners === 'round') {
    const steps = Math.max(1, Math.ceil(turn / CHORD));
    return Array.from({ length: steps + 1 }, (_, k) => at(from + (k * turn) / steps, margin));
  }
  // Past the point, the edges go on by margin · tan(turn / 2) until they meet.
  if (turn <= Math.PI / 2) return [at(from + turn / 2, margin / Math.cos(turn / 2))];
  const far = margin * Math.SQRT2;
  return [at(from + Math.PI / 4, far), at(from + turn - Math.PI / 4, far)];
}

function aroundOne([x, y]: Point, margin: number, corners: 'round' | 'straight'): Point[] {
  if (corners === 'straight')
    return [
      [x - margin, y - margin],
      [x + margin, y - margin],
      [x + margin, y + margin],
      [x - margin, y + margin],
    ];
  return Array.from({ length: 16 }, (_, k): Point => {
    const angle = k * CHORD;
    return [x + margin * Math.cos(angle), y + margin * Math.sin(angle)];
  });
}

/** The hull's corners; one or two where the points lie on one place or line. */
function hullOf(points: readonly Point[]): Point[] {
  const ring = convexHull(points.flat());
  const corners = Array.from({ length: ring.length / 2 }, (_, k): Point => [ring[2 * k], ring[2 * k + 1]]);
  const apart = corners.filter(([x, y], i) => {
    const [px, py] = corners[(i + corners.length - 1) % corners.length];
    return Math.hypot(x - px, y - py) > 1e-6;
  });
  return apart.length > 0 ? apart : [points[0]];
}

function direction([x0, y0]: Point, [x1, y1]: Point): Point {
  const long = Math.hypot(x1 - x0, y1 - y0);
  return [(x1 - x0) / long, (y1 - y0) / long];
}
