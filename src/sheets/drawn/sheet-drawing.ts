import type { Point } from '../../geometry/plane.js';
import { drawPiece } from '../layout/piece.js';
import type { Sheet } from '../layout/placed.js';
import type { SheetSettings } from '../settings.js';
import {
  type Drawing,
  emptyDrawing,
  fitted,
  LEAST_TYPE,
  type LineKind,
  type Text,
  widthOfText,
} from './drawing.js';
import { writeLabels } from './labels.js';

/**
 * A whole sheet: its pieces, and at its foot a ruler, a title and a key to the lines.
 * @param what what it is, where it is no card to cut
 */
export function drawSheet(
  sheet: Sheet,
  index: number,
  count: number,
  settings: SheetSettings,
  what?: string,
): Drawing {
  const drawing = emptyDrawing(sheet.paper.width, sheet.paper.height);
  for (const { piece, place, art } of sheet.placed) {
    drawing.art.push(...(art ?? []));
    drawPiece(drawing, piece, place);
  }
  const { margin, figure, candidate } = settings;
  const width = sheet.paper.width - 2 * margin;
  drawRuler(drawing, [margin, margin + 13], width);
  const grammage = sheet.card.grammage === undefined ? '' : `, ${sheet.card.grammage} g/m²`;
  const title = [
    figure,
    candidate,
    `sheet ${index + 1} of ${count}`,
    what ?? `card ${sheet.card.thickness} mm${grammage}`,
  ]
    .filter((part) => part !== '')
    .join('  ·  ');
  note(drawing, [margin, margin + 1], fitted(title, LEAST_TYPE, width), LEAST_TYPE);
  const isBehind = sheet.placed.some(({ piece }) => piece.marks.some(({ spot }) => spot.face === -1));
  drawKey(drawing, [margin, margin + 5.5], isBehind);
  writeLabels(drawing, sheet.placed);
  return drawing;
}

/** Length of the ruler on every sheet: 100 mm and 4 inches, or what a narrow sheet has room for. */
const RULER = 100;
const INCHES = 4;
const INCH = 25.4;

/** Millimetres above the line, inches below it. */
function drawRuler(drawing: Drawing, [x, y]: Point, room: number): void {
  const line = (...points: Point[]) => drawing.strokes.push({ kind: 'note', points, closed: false });
  const long = Math.min(RULER, 10 * Math.floor(room / 10));
  const inches = Math.min(INCHES, Math.floor(room / INCH));
  const end = Math.max(long, inches * INCH);
  line([x, y], [x + long, y]);
  for (let mm = 0; mm <= long; mm += 10) line([x + mm, y], [x + mm, y + (mm % 50 === 0 ? 3 : 1.8)]);
  const low = y - 0.7;
  line([x, low], [x + inches * INCH, low]);
  for (let half = 0; half <= 2 * inches; half++)
    line([x + (half * INCH) / 2, low], [x + (half * INCH) / 2, low - (half % 2 === 0 ? 2 : 1.1)]);
  const left = room - end - 3;
  const say = (text: string, up: number) => {
    if (left > 20) note(drawing, [x + end + 3, y + up], fitted(text, LEAST_TYPE, left), LEAST_TYPE);
  };
  say(`${long} mm above, ${inches} inches below: print at 100 %, measure.`, 1.2);
  say('The face with the numbers is the printed one.', -2.8);
}

const KEY: readonly (readonly [LineKind, string])[] = [
  ['cut', 'cut'],
  ['mountain', 'mountain'],
  ['valley', 'valley'],
  ['both ways', 'both ways'],
  ['glue line', 'crease sits here'],
];

/** Samples of the lines and shades that the sheet has. @param isBehind whether glue goes on the back of any piece */
function drawKey(drawing: Drawing, [x, y]: Point, isBehind: boolean): void {
  const kinds = new Set(drawing.strokes.map(({ kind }) => kind));
  let at = x;
  for (const [kind, word] of KEY) {
    if (!kinds.has(kind)) continue;
    drawing.strokes.push({
      kind,
      points: [
        [at, y + 1],
        [at + 9.5, y + 1],
      ],
      closed: false,
      sample: true,
    });
    note(drawing, [at + 10.5, y], word, LEAST_TYPE);
    at += 13 + widthOfText(word, LEAST_TYPE);
  }
  if (drawing.fills.length === 0) {
    if (isBehind) note(drawing, [at, y], '(A): glue on the back', LEAST_TYPE);
    return;
  }
  const box: Point[] = [
    [at, y - 0.5],
    [at + 5, y - 0.5],
    [at + 5, y + 2.5],
    [at, y + 2.5],
  ];
  drawing.fills.push({ rings: [box], grey: 0.9 });
  drawing.strokes.push({ kind: 'glue area', points: box, closed: true, sample: true });
  note(drawing, [at + 6.5, y], isBehind ? 'glue; (A): on the back' : 'glue', LEAST_TYPE);
}

function note(drawing: Drawing, at: Point, text: string, size: number): void {
  const made: Text = { at, text, size, anchor: 'left', turn: 0, bold: false };
  drawing.texts.push(made);
}
