import {
  circle,
  type Isometry,
  moved,
  movedRing,
  movedShape,
  type Point,
  type Ring,
  type Segment,
} from '../../geometry/plane.js';
import { widestPlace } from '../../geometry/room.js';
import type { Drawing, LineKind } from '../drawn/drawing.js';
import type { Bond, Spot } from '../nets/bonds.js';
import { type CutLines, cutLinesOf } from '../nets/cut-lines.js';
import type { Sense } from '../nets/fold-sense.js';
import type { Net } from '../nets/net.js';
import { type Narrow, narrowIn } from '../nets/webs.js';
import { SheetError } from './paper.js';

/** One thing to cut out: a net with its number, its lines and its glue marks. */
export interface Piece {
  readonly number: number;
  readonly net: Net;
  readonly lines: CutLines;
  readonly marks: readonly Mark[];
  /** Which face lies up on the sheet and is printed; null for a hub, whose faces are alike. */
  readonly face: 'front' | 'back' | null;
  /** Card and gaps that cut badly. */
  readonly narrow: readonly Narrow[];
  /** Glue that holds badly. */
  readonly slivers: readonly Sliver[];
}

/** A place of glue that is narrow all over. */
export interface Sliver {
  readonly letter: string;
  readonly area: string;
  /** Of the largest disc in it, mm. */
  readonly width: number;
  /** Its middle. */
  readonly at: Point;
}

/** Least width of glue, mm. (Common practice, no source.) */
export const LEAST_GLUE = 3;

/** A letter on a glue area. */
export interface Mark {
  readonly letter: string;
  readonly spot: Spot;
  /** Of what receives: where the crease of what is glued on sits. */
  readonly line: Segment | null;
  readonly receives: boolean;
}

/** @throws SheetError for what is no card */
export function pieceOf(
  number: number,
  net: Net,
  bonds: readonly { bond: Bond; letter: string }[],
  faceOf: (piece: string) => 'front' | 'back',
): Piece {
  const marks: Mark[] = [];
  for (const { bond, letter } of bonds) {
    if (bond.giver.net === net) marks.push({ letter, spot: bond.giver, line: null, receives: false });
    if (bond.receiver.net === net)
      marks.push({ letter, spot: bond.receiver, line: bond.line, receives: true });
  }
  const lines = cutLinesOf(net);
  if (lines.contours.length === 0)
    throw new SheetError(`'${net.name}' is too narrow to be cut: nothing of it is left between its edges`);
  const slivers = marks.flatMap(({ letter, spot }): Sliver[] => {
    const places = spot.shapes.map(widestPlace);
    const widest = places.reduce((a, b) => (b.radius > a.radius ? b : a), places[0]);
    if (widest === undefined || 2 * widest.radius >= LEAST_GLUE - 1e-6) return [];
    return [{ letter, area: net.areas[spot.area].name, width: 2 * widest.radius, at: widest.at }];
  });
  const face = net.areas.some(({ panel }) => panel >= 0) ? faceOf(net.piece) : null;
  return { number, net, lines, marks, face, narrow: narrowIn(net, lines), slivers };
}

const CREASE_KIND: Readonly<Record<Sense, LineKind | null>> = {
  mountain: 'mountain',
  valley: 'valley',
  'both ways': 'both ways',
  // Never folded, so never scored.
  flat: null,
};

/** Radius of the ring around what is too narrow, mm. */
const RING = 3;

/** Draws a piece on a sheet: its lines and its glue, rings around what is too narrow, without letters. */
export function drawPiece(drawing: Drawing, piece: Piece, place: Isometry): void {
  drawLines(drawing, piece, place);
  const { net, marks } = piece;
  for (const { at } of [...piece.narrow, ...piece.slivers]) {
    // In dashes, so that it is not taken for a hole.
    const round = circle(moved(place, at), RING, 36);
    for (let i = 0; i < round.length; i += 3)
      drawing.strokes.push({ kind: 'note', points: round.slice(i, i + 3), closed: false });
  }
  for (const { spot, line, receives } of marks) {
    const rings = spot.shapes
      .map((shape) => movedShape(place, shape))
      .flatMap(({ outline, holes }) => [outline, ...holes]);
    const onFront = spot.face === 1;
    if (onFront) drawing.fills.push({ rings, grey: 0.9 });
    if (receives || net.areas[spot.area].kind === 'panel')
      for (const points of rings)
        drawing.strokes.push({ kind: onFront ? 'glue area' : 'glue behind', points, closed: true });
    if (line !== null)
      drawing.strokes.push({
        kind: 'glue line',
        points: [moved(place, line[0]), moved(place, line[1])],
        closed: false,
      });
  }
}

/** Where a piece is cut and creased. */
export function drawLines(drawing: Drawing, { lines, net }: Piece, place: Isometry): void {
  const closed = (ring: Ring) =>
    drawing.strokes.push({ kind: 'cut', points: movedRing(place, ring), closed: true });
  lines.contours.forEach(closed);
  lines.holes.forEach(closed);
  for (const [a, b] of lines.slits)
    drawing.strokes.push({ kind: 'cut', points: [moved(place, a), moved(place, b)], closed: false });
  for (const { segment, fold } of lines.creases) {
    const kind = CREASE_KIND[net.folds[fold].sense];
    if (kind !== null)
      drawing.strokes.push({
        kind,
        points: [moved(place, segment[0]), moved(place, segment[1])],
        closed: false,
      });
  }
}
