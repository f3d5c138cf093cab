import { areaOf, direction, distance, edgesOf, type Ring } from '../../geometry/plane.js';
import type { Piece } from './piece.js';

/** Two pieces of one outline, or of one outline and its mirror image: what a maker may mix up. */
export interface Lookalikes {
  readonly pieces: readonly [Piece, Piece];
  readonly mirrored: boolean;
}

/** Sides may differ by this, mm, and corners by this, radians, and still look alike. */
const SIDE = 0.2;
const CORNER = 0.01;

export function lookalikes(pieces: readonly Piece[]): Lookalikes[] {
  const found: Lookalikes[] = [];
  pieces.forEach((a, i) => {
    for (const b of pieces.slice(i + 1)) {
      const [ra, rb] = [a.lines.contours[0], b.lines.contours[0]];
      if (Math.abs(areaOf(ra) - areaOf(rb)) > 0.01 * areaOf(ra)) continue;
      // A shape that is its own mirror image is just the same.
      if (sameShape(ra, rb)) found.push({ pieces: [a, b], mirrored: false });
      else if (sameShape(ra, mirrorImage(rb))) found.push({ pieces: [a, b], mirrored: true });
    }
  });
  return found;
}

function mirrorImage(ring: Ring): Ring {
  return ring.map(([x, y]) => [-x, y] as const).reverse();
}

/** Whether two counter-clockwise rings are the same but for their place: the same sides and corners in the same turn. */
function sameShape(a: Ring, b: Ring): boolean {
  if (a.length !== b.length) return false;
  const [sidesA, sidesB] = [sidesOf(a), sidesOf(b)];
  return sidesA.some((_, shift) =>
    sidesB.every(([long, turn], i) => {
      const [otherLong, otherTurn] = sidesA[(i + shift) % sidesA.length];
      return Math.abs(long - otherLong) < SIDE && Math.abs(turn - otherTurn) < CORNER;
    }),
  );
}

/** Of every edge, its length and the turn at its end, radians. */
function sidesOf(ring: Ring): [number, number][] {
  const edges = edgesOf(ring);
  return edges.map((edge, i) => {
    const [ax, ay] = direction(edge);
    const [bx, by] = direction(edges[(i + 1) % edges.length]);
    return [distance(...edge), Math.atan2(ax * by - ay * bx, ax * bx + ay * by)];
  });
}
