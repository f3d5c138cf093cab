import {
  after,
  boxOf,
  circle,
  type Isometry,
  moved,
  movedRing,
  movedShape,
  type Point,
} from '../../geometry/plane.js';
import { withBleed } from '../layout/bleed.js';
import { drawLines } from '../layout/piece.js';
import type { Placed, Sheet } from '../layout/placed.js';
import type { PrinterSettings, SheetSettings } from '../settings.js';
import { type Drawing, emptyDrawing, fitted, type LineKind, type Text } from './drawing.js';
import { Pdf } from './pdf.js';

const SPOT_OF: Readonly<Record<LineKind | 'shading', keyof PrinterSettings['spots'] | null>> = {
  shading: 'glue',
  cut: 'cut',
  mountain: 'crease',
  valley: 'crease',
  'both ways': 'crease',
  'glue line': 'glue',
  'glue area': 'glue',
  'glue behind': 'glue',
  note: null,
};

/** How the spots look on a screen, in cyan, magenta, yellow and black, per cent: only told apart, not meant to print. */
const LOOKS = { cut: [0, 100, 0, 0], crease: [100, 0, 0, 0], glue: [0, 0, 100, 10] } as const;

/**
 * Die-lines: one page a sheet, cut, crease and glue each in a spot colour (Separation) of its own, set to overprint,
 * as printers want them (common practice, no source).
 */
export async function dieLines(sheets: readonly Sheet[], settings: SheetSettings, printer: PrinterSettings) {
  const pdf = new Pdf(`${settings.figure}: die-lines`, true);
  sheets.forEach((sheet, i) => {
    const drawing = blank(sheet, settings, `die-lines, sheet ${i + 1} of ${sheets.length}, printed face`);
    for (const { piece, place } of sheet.placed) {
      drawLines(drawing, piece, place);
      for (const { spot, line } of piece.marks) {
        // Filled, not outlined: along its outline a tab is cut.
        for (const { outline, holes } of spot.shapes)
          drawing.fills.push({ rings: [outline, ...holes].map((ring) => movedRing(place, ring)), grey: 0.8 });
        if (line !== null)
          drawing.strokes.push({
            kind: 'glue line',
            points: line.map((p) => moved(place, p)),
            closed: false,
          });
      }
    }
    pdf.addPage(sheet.paper.width, sheet.paper.height);
    pdf.overprint();
    pdf.draw(drawing, [0, 0], (kind) => {
      const spot = SPOT_OF[kind];
      return spot === null ? null : pdf.spotColour(printer.spots[spot], LOOKS[spot]);
    });
  });
  return pdf.finish();
}

/**
 * Artwork templates: for each sheet its front and then its back, mirrored left to right, so that turned like a leaf the
 * two lie in register. Shown are the area with bleed, the cut, and the glue areas, which stay unprinted.
 */
export async function artwork(sheets: readonly Sheet[], settings: SheetSettings, printer: PrinterSettings) {
  const pdf = new Pdf(`${settings.figure}: artwork templates`, true);
  sheets.forEach((sheet, i) => {
    for (const face of [1, -1] as const) {
      const words = face === 1 ? 'front' : 'back, mirrored, in register';
      const key = `broken line: bleed of ${printer.bleed} mm; grey: glue, no ink`;
      const drawing = blank(
        sheet,
        settings,
        `artwork, sheet ${i + 1} of ${sheets.length}, ${words}  ·  ${key}`,
      );
      const over: Isometry = { c: -1, s: 0, x: sheet.paper.width, y: 0, flip: -1 };
      for (const placed of sheet.placed)
        drawTemplate(
          drawing,
          placed,
          face === 1 ? placed.place : after(over, placed.place),
          face,
          printer.bleed,
        );
      pdf.addPage(sheet.paper.width, sheet.paper.height);
      pdf.draw(drawing);
    }
  });
  return pdf.finish();
}

function drawTemplate(
  drawing: Drawing,
  { piece }: Placed,
  place: Isometry,
  face: 1 | -1,
  bleed: number,
): void {
  const { contours, holes } = piece.lines;
  for (const { outline, holes: gaps } of withBleed(contours, bleed))
    for (const ring of [outline, ...gaps])
      drawing.strokes.push({ kind: 'glue behind', points: movedRing(place, ring), closed: true });
  for (const ring of [...contours, ...holes])
    drawing.strokes.push({ kind: 'note', points: movedRing(place, ring), closed: true });
  for (const slit of piece.lines.slits)
    drawing.strokes.push({ kind: 'note', points: slit.map((p) => moved(place, p)), closed: false });
  for (const { segment } of piece.lines.creases)
    drawing.strokes.push({ kind: 'valley', points: segment.map((p) => moved(place, p)), closed: false });
  for (const { spot } of piece.marks) {
    if (spot.face !== face) continue;
    for (const shape of spot.shapes) {
      const { outline, holes: gaps } = movedShape(place, shape);
      drawing.fills.push({ rings: [outline, ...gaps], grey: 0.8 });
    }
  }
  const box = boxOf(movedRing(place, contours[0]));
  drawing.texts.push(label([box.left, box.low - 2.2], `${piece.number} ${piece.net.name}`, 1.8));
}

/** A sheet with register marks in the middle of its edges, the same on front and back. */
function blank(sheet: Sheet, { figure, candidate, margin }: SheetSettings, what: string): Drawing {
  const { width, height } = sheet.paper;
  const drawing = emptyDrawing(width, height);
  const off = Math.max(2.5, margin / 2);
  const spots: Point[] = [
    [width / 2, off],
    [width / 2, height - off],
    [off, height / 2],
    [width - off, height / 2],
  ];
  for (const [x, y] of spots) {
    const mark = (points: readonly Point[], closed = false) =>
      drawing.strokes.push({ kind: 'note', points, closed });
    mark(circle([x, y], 1.2, 36), true);
    mark([
      [x - 2, y],
      [x + 2, y],
    ]);
    mark([
      [x, y - 2],
      [x, y + 2],
    ]);
  }
  const title = [figure, candidate, what].filter((part) => part !== '').join('  ·  ');
  drawing.texts.push(label([margin, margin + 2], fitted(title, 2.2, width - 2 * margin), 2.2));
  return drawing;
}

function label(at: Point, text: string, size: number): Text {
  return { at, text, size, anchor: 'left', turn: 0, bold: false };
}
