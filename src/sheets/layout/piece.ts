import {
  boxOf,
  type Isometry,
  moved,
  movedRing,
  movedShape,
  type Ring,
  type Segment,
  type Shape,
} from '../../geometry/plane.js';
import { less } from '../../geometry/region.js';
import { roomFor, widestPlace } from '../../geometry/room.js';
import type { Drawing, LineKind } from '../drawn/drawing.js';
import { widthOfText } from '../drawn/drawing.js';
import type { Bond, Spot } from '../nets/bonds.js';
import { type CutLines, cutLinesOf } from '../nets/cut-lines.js';
import type { Sense } from '../nets/fold-sense.js';
import type { Net } from '../nets/net.js';
import { SheetError } from './paper.js';

/** One thing to cut out: a net with its number, its lines and its glue marks. */
export interface Piece {
  readonly number: number;
  readonly net: Net;
  readonly lines: CutLines;
  readonly marks: readonly Mark[];
}

/** A letter on a glue area. */
export interface Mark {
  readonly letter: string;
  readonly spot: Spot;
  /** Of what receives: where the crease of what is glued on sits. */
  readonly line: Segment | null;
  readonly receives: boolean;
}

/** @throws SheetError for what is no card */
export function pieceOf(number: number, net: Net, bonds: readonly { bond: Bond; letter: string }[]): Piece {
  const marks: Mark[] = [];
  for (const { bond, letter } of bonds) {
    if (bond.giver.net === net) marks.push({ letter, spot: bond.giver, line: null, receives: false });
    if (bond.receiver.net === net)
      marks.push({ letter, spot: bond.receiver, line: bond.line, receives: true });
  }
  const lines = cutLinesOf(net);
  if (lines.contours.length === 0)
    throw new SheetError(`'${net.name}' is too narrow to be cut: nothing of it is left between its edges`);
  return { number, net, lines, marks };
}

const CREASE_KIND: Readonly<Record<Sense, LineKind | null>> = {
  mountain: 'mountain',
  valley: 'valley',
  'both ways': 'both ways',
  // Never folded, so never scored.
  flat: null,
};

/** Draws a piece on a sheet: its lines, shaded glue areas, letters, number and name. */
export function drawPiece(drawing: Drawing, piece: Piece, place: Isometry): void {
  drawLines(drawing, piece, place);
  const { net, marks, number } = piece;
  const written: Shape[] = [];
  for (const { spot, letter, line, receives } of marks) {
    const shapes = spot.shapes.map((shape) => movedShape(place, shape));
    const onFront = spot.face === 1;
    const rings = shapes.flatMap(({ outline, holes }) => [outline, ...holes]);
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
    written.push(drawLetter(drawing, shapes, onFront ? letter : `(${letter})`, written));
  }
  drawName(drawing, piece, place, `${number}`, net.name);
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

/**
 * A letter in the widest place of its areas, clear of the letters written before (those of the other face, say), as large
 * as there is room. @returns the box that it takes up
 */
function drawLetter(
  drawing: Drawing,
  shapes: readonly Shape[],
  text: string,
  written: readonly Shape[],
): Shape {
  const clear = shapes.flatMap((shape) => less(shape, ...written));
  const places = (clear.length === 0 ? shapes : clear).map(widestPlace);
  const { at, radius } = places.reduce((a, b) => (b.radius > a.radius ? b : a));
  const size = Math.min(4, Math.max(1.4, (1.5 * radius) / Math.max(1, 0.6 * text.length)));
  drawing.texts.push({ at, text, size, anchor: 'middle', turn: 0, bold: true });
  const [x, y] = [0.5 * widthOfText(text, size), 0.5 * size];
  const box = [
    [at[0] - x, at[1] - y],
    [at[0] + x, at[1] - y],
    [at[0] + x, at[1] + y],
    [at[0] - x, at[1] + y],
  ] as const;
  return { outline: box, holes: [] };
}

const NAME_SIZES = [3, 2.5, 2];

/** The number and name where there is room clear of glue; else the number alone; else the number beside the piece. */
function drawName(drawing: Drawing, piece: Piece, place: Isometry, number: string, name: string): void {
  const { net, marks } = piece;
  const front = marks.filter(({ spot }) => spot.face === 1 || spot.net.areas[spot.area].kind === 'panel');
  const free = net.areas.flatMap(({ shape, kind }, area) => {
    if (kind !== 'panel') return [];
    const taken = front.filter(({ spot }) => spot.area === area).flatMap(({ spot }) => spot.shapes);
    return taken.length === 0 ? [shape] : less(shape, ...taken);
  });
  const shapes = free
    .map((shape) => movedShape(place, shape))
    .sort((a, b) => widestPlace(b).radius - widestPlace(a).radius);
  for (const text of [`${number}  ${name}`, number])
    for (const size of NAME_SIZES) {
      const room = roomFor(shapes, widthOfText(text, size) + 1, size * 1.4);
      if (room === null) continue;
      drawing.texts.push({ at: room.at, text, size, anchor: 'middle', turn: room.turn, bold: false });
      return;
    }
  const box = boxOf(piece.lines.contours.flatMap((ring) => movedRing(place, ring)));
  drawing.texts.push({
    at: [box.left, box.low - 2.3],
    text: number,
    size: 2,
    anchor: 'left',
    turn: 0,
    bold: false,
  });
}
