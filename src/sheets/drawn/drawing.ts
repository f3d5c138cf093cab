import { distance, type Point, type Ring } from '../../geometry/plane.js';
import type { PlacedArt } from '../art/placed-art.js';

/** What a line on a sheet says. Each is a group of the SVG and a layer of the DXF. */
export const LINE_KINDS = [
  'cut',
  'mountain',
  'valley',
  'both ways',
  'glue line',
  'glue area',
  'glue behind',
  'note',
] as const;
export type LineKind = (typeof LINE_KINDS)[number];

export interface Stroke {
  readonly kind: LineKind;
  readonly points: readonly Point[];
  readonly closed: boolean;
  /** A sample in the key to the lines: it shows a kind, and is no line to cut or crease. */
  readonly sample?: true;
}

export interface Text {
  /** The middle of the text, or its left end. */
  readonly at: Point;
  readonly text: string;
  /** Size of the type, mm. */
  readonly size: number;
  readonly anchor: 'middle' | 'left';
  /** 90: reads upwards. */
  readonly turn: 0 | 90;
  readonly bold: boolean;
}

/** A drawing at true size: mm from its lower left corner, y up. Every output is made from one of these. */
export interface Drawing {
  readonly width: number;
  readonly height: number;
  /** Printed below all else, each clipped to its rings (even-odd). */
  readonly art: PlacedArt[];
  /** Shaded areas, drawn below the lines; the rings of one fill are outlines and holes (even-odd). */
  readonly fills: { readonly rings: readonly Ring[]; readonly grey: number }[];
  readonly strokes: Stroke[];
  readonly texts: Text[];
}

export function emptyDrawing(width: number, height: number): Drawing {
  return { width, height, art: [], fills: [], strokes: [], texts: [] };
}

/** How each kind of line is drawn: width and dashes in mm, grey from 0 (black) to 1. */
export const LINE_STYLES: Readonly<
  Record<LineKind, { readonly width: number; readonly dash: readonly number[]; readonly grey: number }>
> = {
  cut: { width: 0.25, dash: [], grey: 0 },
  mountain: { width: 0.2, dash: [5, 1.2, 0.5, 1.2], grey: 0 },
  valley: { width: 0.2, dash: [2.5, 1.5], grey: 0 },
  'both ways': { width: 0.2, dash: [5, 1.2, 0.5, 1.2, 0.5, 1.2], grey: 0 },
  'glue line': { width: 0.3, dash: [0.3, 1], grey: 0 },
  'glue area': { width: 0.1, dash: [], grey: 0.5 },
  'glue behind': { width: 0.1, dash: [0.6, 0.6], grey: 0.4 },
  note: { width: 0.15, dash: [], grey: 0 },
};

/** The dashes of a stroke, mm: drawn closer on a short line, so that it still shows what it is. */
export function dashOf({ kind, points }: Stroke): readonly number[] {
  const { dash } = LINE_STYLES[kind];
  const period = dash.reduce((sum, part) => sum + part, 0);
  let long = 0;
  for (let i = 1; i < points.length; i++) long += distance(points[i - 1], points[i]);
  const closer = Math.min(1, Math.max(0.1, long / (2.5 * period)));
  return dash.map((part) => part * closer);
}

/** Height of a capital, as a share of the size of the type. */
export const CAPITAL = 0.73;
/** As far below the middle of its letters a line of text stands, as a share of the size: half a capital. */
export const BELOW_MIDDLE = 0.36;
/** Least size of type: its capitals are 2 mm high. */
export const LEAST_TYPE = 2 / CAPITAL;

/** About how wide a text comes out in the type used, mm; never much less than it does. */
export function widthOfText(text: string, size: number, bold = false): number {
  let wide = 0;
  for (const letter of text) wide += shareOf(letter);
  return wide * size * (bold ? 1.1 : 1);
}

/** Width of a letter, as a share of the size of the type. */
function shareOf(letter: string): number {
  if (/[ijlI.,:;'!|· ]/.test(letter)) return 0.34;
  if (/[MWmw@%]/.test(letter)) return 1;
  if (/[A-Z]/.test(letter)) return 0.72;
  if (/[()[\]{}ft]/.test(letter)) return 0.42;
  return letter < '\u2000' ? 0.64 : 1;
}

/** Cuts a text short so that it is no wider than so many mm. */
export function fitted(text: string, size: number, width: number): string {
  if (widthOfText(text, size) <= width) return text;
  const letters = [...text];
  while (letters.length > 1 && widthOfText(`${letters.join('')}…`, size) > width) letters.pop();
  return `${letters.join('')}…`;
}
