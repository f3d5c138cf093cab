import { areaOf, direction, distance, edgesOf, type Ring } from '../../geometry/plane.js';
import type { Piece } from './piece.js';

/** What a maker may mix up. */
export interface Lookalikes {
  /** Two pieces or more of one outline each. */
  readonly same: readonly (readonly Piece[])[];
  /** Pieces whose outline is the mirror image of another's: one of all that are the same, of either side. */
  readonly mirrored: readonly (readonly [Piece, Piece])[];
}

/** Sides may differ by this, mm, and corners by this, radians, and still look alike. */
const SIDE = 0.2;
const CORNER = 0.01;

/** Each piece is compared with one of each outline that was met before, so that many equal pieces take no longer than few. */
export function lookalikes(pieces: readonly Piece[]): Lookalikes {
  const outlines: Piece[][] = [];
  for (const piece of pieces) {
    const like = outlines.find(
      ([first]) => sameArea(first, piece) && sameShape(ringOf(first), ringOf(piece)),
    );
    if (like) like.push(piece);
    else outlines.push([piece]);
  }
  const mirrored: [Piece, Piece][] = [];
  outlines.forEach(([a], i) => {
    for (const [b] of outlines.slice(i + 1))
      if (sameArea(a, b) && sameShape(ringOf(a), mirrorImage(ringOf(b)))) mirrored.push([a, b]);
  });
  return { same: outlines.filter(({ length }) => length > 1), mirrored };
}

const ringOf = ({ lines }: Piece): Ring => lines.contours[0];

function sameArea(a: Piece, b: Piece): boolean {
  const area = areaOf(ringOf(a));
  return Math.abs(area - areaOf(ringOf(b))) <= 0.01 * area;
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
