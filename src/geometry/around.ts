import { direction, distance, hullOf, type Point } from './plane.js';

/** An arc is drawn in chords of at most so much, radians. */
const CHORD = Math.PI / 8;

/** Corners nearer to the one before than this, mm, are the same one: round-off, or an arc of next to nothing. */
const SAME_PLACE = 2e-6;

/**
 * The convex outline around points, so far from them. Straight corners go on to where the edges meet, but no farther past
 * a point than the margin along either edge; so a straight line gets a rectangle around it.
 * @param margin mm; with none it is the hull
 * @returns corners, counter-clockwise
 */
export function outlineAround(
  points: readonly Point[],
  margin: number,
  corners: 'round' | 'straight',
): Point[] {
  const hull = distinct(points.length > 1 ? hullOf(points) : points);
  const n = hull.length;
  if (n === 1) return aroundOne(hull[0], margin, corners);
  const around = hull.flatMap((point, i): Point[] => {
    const before = direction([hull[(i + n - 1) % n], point]);
    const after = direction([point, hull[(i + 1) % n]]);
    // From 0 to π: a hull turns left at all its corners. Below 0 it is round-off, of points in a row or there and back.
    const turn = Math.abs(
      Math.atan2(before[0] * after[1] - before[1] * after[0], before[0] * after[0] + before[1] * after[1]),
    );
    return cornerAt(point, Math.atan2(before[1], before[0]) - Math.PI / 2, turn, margin, corners);
  });
  return distinct(around);
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

/** Without corners that repeat the one before; one at least. */
function distinct(ring: readonly Point[]): Point[] {
  const apart = ring.filter(
    (point, i) => distance(point, ring[(i + ring.length - 1) % ring.length]) > SAME_PLACE,
  );
  return apart.length > 0 ? apart : [ring[0]];
}
