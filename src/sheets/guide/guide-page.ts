import type { Drawing } from '../drawn/drawing.js';
import { type Pdf, POINTS } from '../drawn/pdf.js';
import type { Paper } from '../layout/paper.js';

const MARGIN = 18;
/** Size of running text, mm. */
const TEXT = 3.4;

/** Running text and pictures, page after page; positions in mm from the top. */
export class GuidePages {
  readonly #pdf: Pdf;
  readonly #paper: Paper;
  #y = 0;
  readonly #width: number;

  constructor(pdf: Pdf, paper: Paper) {
    this.#pdf = pdf;
    this.#paper = paper;
    this.#width = paper.width - 2 * MARGIN;
    this.#newPage();
  }

  title(text: string): void {
    this.#write(text, { size: 7, bold: true, after: 2 });
  }

  /** @param needs room for it and what follows, mm, so that it is never alone at the foot of a page */
  heading(text: string, needs = 20): void {
    this.#room(needs);
    this.#y += 4;
    this.#write(text, { size: 4.6, bold: true, after: 1.5 });
  }

  text(text: string): void {
    this.#write(text, { after: 1.2 });
  }

  bullet(text: string): void {
    this.#room(this.#heightOf(text, TEXT, this.#width - 5));
    this.#put('–', MARGIN, this.#y, TEXT, false, 5);
    this.#write(text, { indent: 5, after: 1 });
  }

  /** Rows of cells, with the head again on each page; the widths of the columns in mm. */
  table(head: readonly string[], rows: readonly (readonly string[])[], widths: readonly number[]): void {
    const size = 3;
    const heightOf = (cells: readonly string[], bold: boolean) =>
      Math.max(...cells.map((cell, i) => this.#heightOf(cell, size, widths[i] - 2, bold)));
    const row = (cells: readonly string[], bold: boolean, needs = 0) => {
      const height = heightOf(cells, bold);
      if (this.#room(height + 1.5 + needs) && !bold) row(head, true);
      let x = MARGIN;
      cells.forEach((cell, i) => {
        this.#put(cell, x, this.#y, size, bold, widths[i] - 2);
        x += widths[i];
      });
      this.#y += height + 0.8;
      this.#rule(bold ? 0.25 : 0.1);
      this.#y += 0.9;
    };
    row(head, true);
    rows.forEach((cells, i) => {
      // The last row is never alone on a page: the one before goes with it.
      const last = i === rows.length - 2 ? heightOf(rows[i + 1], false) + 1.7 : 0;
      row(cells, false, last);
    });
    this.#y += 1.5;
  }

  /** A picture at the left with text beside it: kept together on one page. */
  pictured(layers: readonly Drawing[], title: string, lines: readonly string[]): void {
    const [{ width, height }] = layers;
    const left = MARGIN + width + 5;
    const wide = this.#width - width - 5;
    const titled = this.#heightOf(title, 3.9, wide, true) + 1.5;
    const tall = titled + lines.reduce((sum, line) => sum + this.#heightOf(line, TEXT, wide) + 1.2, 0);
    this.#room(Math.max(height, tall) + 5);
    const { doc } = this.#pdf;
    doc.save();
    doc.rect(MARGIN * POINTS, this.#y * POINTS, width * POINTS, height * POINTS).clip();
    for (const layer of layers) this.#pdf.draw(layer, [MARGIN, this.#y]);
    doc.restore();
    let y = this.#y;
    this.#put(title, left, y, 3.9, true, wide);
    y += titled;
    for (const line of lines) {
      this.#put(line, left, y, TEXT, false, wide);
      y += this.#heightOf(line, TEXT, wide) + 1.2;
    }
    this.#y += Math.max(height, tall) + 2;
    this.#rule(0.1);
    this.#y += 3;
  }

  #write(text: string, { size = TEXT, bold = false, indent = 0, after = 0 }): void {
    const height = this.#heightOf(text, size, this.#width - indent, bold);
    this.#room(height);
    this.#put(text, MARGIN + indent, this.#y, size, bold, this.#width - indent);
    this.#y += height + after;
  }

  #put(text: string, x: number, y: number, size: number, bold: boolean, width: number): void {
    this.#pdf.doc
      .font(bold ? 'bold' : 'plain')
      .fontSize(size * POINTS)
      .fillColor('black')
      .text(this.#pdf.printed(text), x * POINTS, y * POINTS, {
        width: width * POINTS,
        lineGap: 0.5 * POINTS,
      });
  }

  #heightOf(text: string, size: number, width: number, bold = false): number {
    const { doc } = this.#pdf;
    doc.font(bold ? 'bold' : 'plain').fontSize(size * POINTS);
    return (
      doc.heightOfString(this.#pdf.printed(text), { width: width * POINTS, lineGap: 0.5 * POINTS }) / POINTS
    );
  }

  #rule(thick: number): void {
    const y = this.#y * POINTS;
    this.#pdf.doc
      .lineWidth(thick * POINTS)
      .strokeColor('black')
      .moveTo(MARGIN * POINTS, y)
      .lineTo((MARGIN + this.#width) * POINTS, y)
      .stroke();
  }

  /** Begins a new page where there is too little room left on this one. @returns whether it has */
  #room(height: number): boolean {
    if (this.#y + height <= this.#paper.height - MARGIN) return false;
    this.#newPage();
    return true;
  }

  #newPage(): void {
    this.#pdf.addPage(this.#paper.width, this.#paper.height);
    this.#y = MARGIN;
  }
}
