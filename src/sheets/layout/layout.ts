import { after, areaOf, movedShape, turnedBy } from '../../geometry/plane.js';
import { grown, solid } from '../../geometry/region.js';
import { lettersFit, roomAround } from '../drawn/labels.js';
import type { Card, SheetSettings } from '../settings.js';
import { packOnFewest } from './fewest-sheets.js';
import type { Rectangle } from './maxrects.js';
import { cellFor, type Mask, maskOf, nest } from './nest.js';
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

interface Item extends Rectangle {
  readonly piece: Piece;
  readonly copy: number;
  /** Degrees, so that it lies well. */
  readonly turn: number;
  /** Room around it for its letters, mm: part of its box. */
  readonly around: number;
}

/**
 * Places all pieces on as few sheets as it finds: by their boxes (maximal rectangles, Jylänki 2010, in several orders) and
 * by their outlines; the best counts. Room for letters beside their pieces is given up where that saves a sheet and all
 * of them find room even so. Pieces of different card go on different sheets.
 */
export function layOut(pieces: readonly Piece[], settings: SheetSettings): Sheet[] {
  const { paper, cardOf } = settings;
  const groups = new Map<string, { card: Card; own: Piece[] }>();
  for (const piece of pieces) {
    const card = cardOf(piece.net.piece);
    const key = `${card.thickness} ${card.grammage ?? ''}`;
    const group = groups.get(key) ?? { card, own: [] };
    groups.set(key, group);
    group.own.push(piece);
  }
  return [...groups.values()].flatMap(({ card, own }) => {
    const roomy = placeAll(own, card, settings, true);
    if (roomy.length === 1) return { paper, card, placed: roomy[0] };
    const tight = placeAll(own, card, settings, false);
    const fits = () => tight.every((placed) => lettersFit(placed, paper.width, paper.height));
    const best = tight.length < roomy.length && fits() ? tight : roomy;
    return best.map((placed): Sheet => ({ paper, card, placed }));
  });
}

/** Pieces of one card on sheets. @param lettered whether there is room around each for letters that don't fit on it */
function placeAll(
  pieces: readonly Piece[],
  { grain }: Card,
  settings: SheetSettings,
  lettered: boolean,
): Placed[][] {
  const { paper, margin, spacing, copies } = settings;
  const room = roomOn(paper, margin);
  const cell = cellFor(room.width, room.height);
  // The grain of a sheet runs along its long side, as a rule.
  const grainUp = paper.height >= paper.width;
  const fixed = hasGrain(grain);
  const items = pieces.flatMap((piece): Item[] => {
    const turn = turnFor(piece.net, piece.lines.contours, grain, grainUp);
    const box = boxAt(piece.lines.contours.flat(), turnedBy(turn));
    const [width, height] = [box.right - box.left, box.high - box.low];
    mustFit(piece, width, height, fixed, settings);
    const wanted = lettered ? roomAround(piece, turnedBy(turn)) : 0;
    const around = fitsOn(paper, margin, width + 2 * wanted, height + 2 * wanted, fixed) ? wanted : 0;
    const roomy = { width: width + 2 * around, height: height + 2 * around };
    return Array.from({ length: copies }, (_, i) => ({ piece, copy: i + 1, turn, around, ...roomy, fixed }));
  });
  const boxed = packOnFewest(items, room.width, room.height, spacing).map((sheet) =>
    sheet.map(({ box, x, y, turned }) => putAt(box, turned ? 90 : 0, margin + x, margin + FOOTER + y)),
  );
  // Of one sheet none can be saved.
  if (boxed.length <= 1) return boxed;
  const masks = new Map<Piece, Mask[]>();
  const nestable = items.map((item) => {
    const { piece, turn, around } = item;
    const ways = masks.get(piece) ?? masksOf(piece, turn, spacing / 2 + around, fixed, cell);
    masks.set(piece, ways);
    return { ...item, ways };
  });
  const found = nest(nestable, room.width + spacing, room.height + spacing, cell);
  if (found === null) return boxed;
  const nested: Placed[][] = [];
  for (const { item, sheet, way, x, y } of found) {
    nested[sheet] ??= [];
    const more = fixed ? 180 * way : 90 * way;
    nested[sheet].push(putAt(item, more, margin + x, margin + FOOTER + y));
  }
  return costOf(nested) < costOf(boxed) - 1e-9 ? nested : boxed;
}

/** What a piece takes up with so much room around it, for each way in which it may lie. */
function masksOf({ lines }: Piece, turn: number, room: number, fixed: boolean, cell: number): Mask[] {
  const wide = grown(lines.contours.map(solid), room);
  return (fixed ? [0, 180] : [0, 90, 180, 270]).map((more) =>
    maskOf(
      wide.map((shape) => movedShape(turnedBy(turn + more), shape)),
      cell,
    ),
  );
}

/** Sheets, and as a share how much is on the last of them: what is left over is to be in one piece. */
function costOf(sheets: readonly (readonly Placed[])[]): number {
  const card = (placed: readonly Placed[] = []) =>
    placed.reduce(
      (sum, { piece }) => sum + piece.lines.contours.reduce((own, ring) => own + areaOf(ring), 0),
      0,
    );
  const all = sheets.reduce((sum, placed) => sum + card(placed), 0);
  return sheets.length + card(sheets.at(-1)) / (all + 1);
}

/** The motion that puts the lower left corner of a turned piece's box, with the room around it, at (x, y). */
function putAt({ piece, copy, turn, around }: Item, more: number, x: number, y: number): Placed {
  const turned = turnedBy(turn + more);
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
