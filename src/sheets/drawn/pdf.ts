import { createRequire } from 'node:module';
import PDFDocument from 'pdfkit';
import svgpath from 'svgpath';
import type { Point } from '../../geometry/plane.js';
import {
  BELOW_MIDDLE,
  type Drawing,
  dashOf,
  LINE_KINDS,
  LINE_STYLES,
  type LineKind,
  type Stroke,
} from './drawing.js';
import { PdfLayers } from './pdf-layers.js';
import { inPlace } from './reading-order.js';
import { plainText } from './safe-text.js';

/** PDF points in a millimetre: 72 in an inch of 25.4 mm. */
export const POINTS = 72 / 25.4;

const require = createRequire(import.meta.url);
const FONTS = {
  plain: require.resolve('dejavu-fonts-ttf/ttf/DejaVuSans.ttf'),
  bold: require.resolve('dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf'),
};

/** What pdfkit's types leave out. */
type SpotColours = PDFKit.PDFDocument & {
  readonly spotColors: Record<string, object>;
  addSpotColor(name: string, cyan: number, magenta: number, yellow: number, black: number): void;
};

type WithImages = PDFKit.PDFDocument & { openImage(png: Buffer): PDFKit.Mixins.ImageSrc };

type WithFont = PDFKit.PDFDocument & {
  readonly _font: { readonly font: { hasGlyphForCodePoint(code: number): boolean } };
};

/** What stands for a letter that the font has not. */
const MISSING = '\u25af';

/** A PDF in the making, in millimetres. It is dated 1970, so that the same figure gives the same bytes. */
export class Pdf {
  readonly doc: PDFKit.PDFDocument;
  readonly #chunks: Uint8Array[] = [];
  readonly #ended: Promise<void>;
  readonly #layers: PdfLayers | null;
  readonly #pictures = new Map<Uint8Array, PDFKit.Mixins.ImageSrc>();

  /** @param layered whether each kind of line lies on a layer of its own, by the names that SVG and DXF have for it */
  constructor(title: string, layered = false) {
    this.doc = new PDFDocument({
      autoFirstPage: false,
      margin: 0,
      info: {
        Title: plainText(title),
        Creator: 'dummyrun',
        Producer: 'dummyrun, by pdfkit',
        CreationDate: new Date(0),
      },
    });
    for (const [name, path] of Object.entries(FONTS)) this.doc.registerFont(name, path);
    this.#layers = layered ? new PdfLayers(this.doc) : null;
    this.doc.on('data', (chunk: Uint8Array) => this.#chunks.push(chunk));
    this.#ended = new Promise((resolve, reject) => {
      this.doc.on('end', resolve);
      this.doc.on('error', reject);
    });
  }

  addPage(width: number, height: number): void {
    this.doc.addPage({ size: [width * POINTS, height * POINTS], margin: 0 });
  }

  /**
   * Draws at true scale.
   * @param at where the drawing's upper left corner lies, mm from the page's upper left corner
   * @param ink other colours than greys: of a kind of line, or of the shading
   */
  draw(
    drawing: Drawing,
    at: Point = [0, 0],
    ink: (kind: LineKind | 'shading') => string | null = () => null,
  ): void {
    const { doc } = this;
    const place = ([x, y]: Point): [number, number] => [
      (at[0] + x) * POINTS,
      (at[1] + drawing.height - y) * POINTS,
    ];
    const trace = (points: readonly Point[], closed: boolean) => {
      points.forEach((p, i) => {
        if (i === 0) doc.moveTo(...place(p));
        else doc.lineTo(...place(p));
      });
      if (closed) doc.closePath();
    };
    if (drawing.art.length > 0) this.#on('art', () => this.#drawArt(drawing, at, trace));
    if (drawing.fills.length > 0)
      this.#on('shading', () => {
        for (const { rings, grey } of drawing.fills) {
          for (const ring of rings) trace(ring, true);
          doc.fillColor(ink('shading') ?? greyOf(grey)).fill('even-odd');
        }
      });
    const strike = (kind: LineKind, strokes: readonly Stroke[]) => {
      const { width, grey } = LINE_STYLES[kind];
      doc.save();
      doc
        .lineWidth(width * POINTS)
        .lineJoin('miter')
        .lineCap('butt')
        .strokeColor(ink(kind) ?? greyOf(grey));
      for (const stroke of strokes) {
        const dash = dashOf(stroke);
        if (dash.length > 0) doc.addContent(`[${dash.map((mm) => (mm * POINTS).toFixed(3)).join(' ')}] 0 d`);
        trace(stroke.points, stroke.closed);
        doc.stroke();
      }
      doc.restore();
    };
    const of = (kind: LineKind, sample: boolean) =>
      drawing.strokes.filter((stroke) => stroke.kind === kind && (stroke.sample ?? false) === sample);
    for (const kind of LINE_KINDS) {
      const own = of(kind, false);
      if (own.length > 0) this.#on(kind, () => strike(kind, own));
    }
    if (drawing.strokes.some(({ sample }) => sample))
      this.#on('key', () => {
        for (const kind of LINE_KINDS) strike(kind, of(kind, true));
      });
    if (drawing.texts.length > 0) this.#on('text', () => this.#write(drawing, place));
  }

  /** A text as it stands on paper in the font at hand: plain, its words in place, with a sign for what the font has not. */
  printed(text: string): string {
    const shown = Array.from(plainText(text), (letter) => (this.#has(letter) ? letter : MISSING)).join('');
    // The space after such a word is laid on its other side, with its letters: one more keeps it from what follows.
    return inPlace(shown).replace(/([\u0590-\u08ff]) (?=[^\u0590-\u08ff])/g, '$1  ');
  }

  /** Whether the font at hand has all of a text's letters. */
  canPrint(text: string): boolean {
    return Array.from(plainText(text)).every((letter) => this.#has(letter));
  }

  #has(letter: string): boolean {
    const { font } = (this.doc as WithFont)._font;
    return /\p{M}|\p{Cf}/u.test(letter) || font.hasGlyphForCodePoint(letter.codePointAt(0) ?? 0);
  }

  /** Draws on a layer, where there are layers. */
  #on(layer: string, draw: () => void): void {
    if (this.#layers === null) draw();
    else this.#layers.on(layer, draw);
  }

  #drawArt(
    { art, height }: Drawing,
    at: Point,
    trace: (points: readonly Point[], closed: boolean) => void,
  ): void {
    const { doc } = this;
    for (const { clip, strokes, picture } of art) {
      doc.save();
      for (const ring of clip) trace(ring, true);
      doc.clip('even-odd');
      const matrix: [number, number, number, number, number, number] = [
        POINTS,
        0,
        0,
        -POINTS,
        at[0] * POINTS,
        (at[1] + height) * POINTS,
      ];
      for (const { d, fill, stroke, width, evenOdd } of strokes) {
        doc.path(svgpath(d).matrix(matrix).round(4).toString());
        if (stroke !== null) doc.lineWidth(width * POINTS).strokeColor(stroke);
        if (fill !== null) doc.fillColor(fill);
        const rule = evenOdd ? 'even-odd' : 'non-zero';
        if (fill !== null && stroke !== null) doc.fillAndStroke(rule);
        else if (fill !== null) doc.fill(rule);
        else doc.stroke();
      }
      if (picture !== null) {
        const { png, width, height: tall, matrix: own } = picture;
        doc.transform(...matrix);
        doc.transform(...own);
        doc.image(this.#opened(png), 0, 0, { width, height: tall });
      }
      doc.restore();
    }
  }

  /** A picture that lies on many panels is there once. */
  #opened(png: Uint8Array): PDFKit.Mixins.ImageSrc {
    const known = this.#pictures.get(png);
    if (known !== undefined) return known;
    const opened = (this.doc as WithImages).openImage(Buffer.from(png));
    this.#pictures.set(png, opened);
    return opened;
  }

  #write({ texts }: Drawing, place: (at: Point) => [number, number]): void {
    const { doc } = this;
    doc.fillColor(greyOf(0));
    for (const { at: spot, text, size, anchor, turn, bold } of texts) {
      const [x, y] = place(spot);
      doc.font(bold ? 'bold' : 'plain').fontSize(size * POINTS);
      const words = this.printed(text);
      doc.save();
      if (turn === 90) doc.rotate(-90, { origin: [x, y] });
      const centred = anchor === 'middle';
      const left = centred ? x - doc.widthOfString(words) / 2 : x;
      const line = centred ? y + BELOW_MIDDLE * size * POINTS : y;
      doc.text(words, left, line, { lineBreak: false, baseline: 'alphabetic' });
      doc.restore();
    }
  }

  /** Lines to come on this page print over what lies below, instead of knocking it out. */
  overprint(): void {
    const state = this.doc.ref({ Type: 'ExtGState', OP: true, op: true, OPM: 1 });
    state.end(null);
    this.doc.page.ext_gstates.Overprint = state;
    this.doc.addContent('/Overprint gs');
  }

  /**
   * Makes a spot colour, a Separation space of that name, and gives the word by which the page's colours know it.
   * @param looks how it looks where there is no such ink: cyan, magenta, yellow, black, per cent
   */
  spotColour(name: string, looks: readonly [number, number, number, number]): string {
    const doc = this.doc as SpotColours;
    // Known by a word of its own, since its name may also be that of a web colour.
    const word = `spot ${name}`;
    if (!Object.hasOwn(doc.spotColors, word)) {
      doc.addSpotColor(name, ...looks);
      doc.spotColors[word] = doc.spotColors[name];
    }
    return word;
  }

  async finish(): Promise<Uint8Array> {
    this.#layers?.finish();
    this.doc.end();
    await this.#ended;
    return Buffer.concat(this.#chunks);
  }
}

function greyOf(grey: number): [number, number, number, number] {
  // In CMYK, so that black is black ink alone.
  return [0, 0, 0, Math.round(100 * (1 - grey))];
}
