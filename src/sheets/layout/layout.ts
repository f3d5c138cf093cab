import { after, turnedBy } from '../../geometry/plane.js';
import { roomAround } from '../drawn/labels.js';
import type { Card, SheetSettings } from '../settings.js';
import { packOnFewest } from './fewest-sheets.js';
import type { Box } from './maxrects.js';
import { PAPERS, type Paper, SheetError } from './paper.js';
import type { Piece } from './piece.js';
import type { Placed, Sheet } from './placed.js';
import { boxAt, hasGrain, turnFor } from './turn-piece.js';

/** Room at the foot of every sheet for its title, the ruler and the key, mm. */
export const FOOTER = 20;

/** The part of a sheet that may hold pieces. */
function roomOn(paper: Paper, margin: number): { width: number; height: number } {
  return { width: paper.width - 2 * margin, height: paper.height - 2 * margin - FOOTER };
}

interface Item extends Box {
  readonly piece: Piece;
  readonly copy: number;
  /** Degrees, so that it lies well. */
  readonly turn: number;
  /** Room around it for its letters, mm: part of its box. */
  readonly around: number;
}

/**
 * Places all pieces on as few sheets as it finds (maximal rectangles, Jylänki 2010, in several orders; the best counts).
 * Pieces of different card go on different sheets.
 */
export function layOut(pieces: readonly Piece[], settings: SheetSettings): Sheet[] {
  const { paper, margin, copies, cardOf } = settings;
  const room = roomOn(paper, margin);
  // The grain of a sheet runs along its long side, as a rule.
  const grainUp = paper.height >= paper.width;
  const groups = new Map<string, { card: Card; items: Item[] }>();
  for (const piece of pieces) {
    const card = cardOf(piece.net.piece);
    const turn = turnFor(piece.net, piece.lines.contours, card.grain, grainUp);
    const box = boxAt(piece.lines.contours.flat(), turnedBy(turn));
    const [width, height] = [box.right - box.left, box.high - box.low];
    const fixed = hasGrain(card.grain);
    mustFit(piece, width, height, fixed, settings);
    const wanted = roomAround(piece, turnedBy(turn));
    const around = fitsOn(paper, margin, width + 2 * wanted, height + 2 * wanted, fixed) ? wanted : 0;
    const roomy = { width: width + 2 * around, height: height + 2 * around };
    const key = `${card.thickness} ${card.grammage ?? ''}`;
    const group = groups.get(key) ?? { card, items: [] };
    groups.set(key, group);
    for (let copy = 1; copy <= copies; copy++)
      group.items.push({ piece, copy, turn, around, ...roomy, fixed });
  }
  return [...groups.values()].flatMap(({ card, items }) =>
    packOnFewest(items, room.width, room.height, settings.spacing).map(
      (placed): Sheet => ({
        paper,
        card,
        placed: placed.map(({ box, x, y, turned }) => putAt(box, turned, margin + x, margin + FOOTER + y)),
      }),
    ),
  );
}

/** The motion that puts the lower left corner of a turned piece's box at (x, y). */
function putAt({ piece, copy, turn, around }: Item, quarter: boolean, x: number, y: number): Placed {
  const turned = turnedBy(quarter ? turn + 90 : turn);
  const box = boxAt(piece.lines.contours.flat(), turned);
  const place = after({ c: 1, s: 0, x: x + around - box.left, y: y + around - box.low, flip: 1 }, turned);
  return { piece, place, copy };
}

/** Whether a box fits on a paper, turned by a quarter if need be and if it may be. */
export function fitsOn(paper: Paper, margin: number, width: number, height: number, fixed: boolean): boolean {
  const room = roomOn(paper, margin);
  const slack = 1e-6;
  const upright = width <= room.width + slack && height <= room.height + slack;
  return upright || (!fixed && height <= room.width + slack && width <= room.height + slack);
}

/** Refuses a piece that is too large for the sheet, and says which sheet would take it. */
function mustFit(piece: Piece, width: number, height: number, fixed: boolean, settings: SheetSettings): void {
  const { paper, margin } = settings;
  if (fitsOn(paper, margin, width, height, fixed)) return;
  const room = roomOn(paper, margin);
  const larger = PAPERS.find((other) => fitsOn(other, margin, width, height, fixed));
  const grain = fixed ? ', its grain as asked,' : '';
  throw new SheetError(
    `'${piece.net.name}' takes ${width.toFixed(0)} × ${height.toFixed(0)} mm${grain} and ${paper.name} leaves room for ${Math.max(0, room.width).toFixed(0)} × ${Math.max(0, room.height).toFixed(0)} mm: ${larger === undefined ? 'no paper known here is large enough' : `take ${larger.name} or larger`}`,
  );
}
