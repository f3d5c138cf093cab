import { describe, expect, it } from 'vitest';
import { inPlace } from '../../src/sheets/drawn/reading-order.js';
import { makeSheets } from '../../src/sheets/make-sheets.js';
import { assemble } from '../support/assemble.js';
import { readPdf } from './read-pdf.js';

const tent = (name: string, figure = 'f') =>
  makeSheets(
    assemble([{ name, kind: 'parallel-fold', at: 40, length: 60, glue: [30, 30], widths: [40, 40] }]),
    { figure, paper: 'A3' },
  );

describe('names in scripts that are read from the right', () => {
  it('have their words in place: by the rules N1, N2 and L2 of UAX #9, in a line that is read from the left', () => {
    expect(inPlace('4  boat')).toBe('4  boat');
    expect(inPlace('4  אחת שתיים')).toBe('4  שתיים אחת');
    expect(inPlace('4  אחת שתיים · front up')).toBe('4  שתיים אחת · front up');
    // A number between two such words goes with them, one at the end does not.
    expect(inPlace('אחת 2 שלוש 4')).toBe('שלוש 2 אחת 4');
    expect(inPlace('אחת and שתיים')).toBe('אחת and שתיים');
  });

  it('are printed in the PDF', async () => {
    for (const name of ['סירה', 'سفينة', 'Лодка', 'Πλοίο']) {
      const { files, warnings } = await tent(name);
      expect(warnings.join(' '), name).not.toMatch(/font/);
      const pdf = files.find((file) => file.name === 'f-sheets.pdf')?.content as Uint8Array;
      const words = (await readPdf(pdf)).flatMap(({ texts }) => texts.map(({ text }) => text)).join(' ');
      // pdfjs gives a right-to-left run letter by letter as it is read.
      for (const letter of name) expect(words.normalize('NFKC'), name).toContain(letter);
    }
  });
});

describe('names in letters that the font of the PDF has not', () => {
  it('are told, with what stands for them, and are whole in the SVG', async () => {
    const { files, warnings } = await tent('小舟');
    expect(warnings.join(' ')).toMatch(
      /not all of these: 2 '小舟'\. .* stands there as ▯, beside the number/,
    );
    const svg = files.filter((file) => file.name.endsWith('.svg')).map(({ content }) => String(content));
    expect(svg.join('')).toContain('小舟');
    const pdf = files.find((file) => file.name === 'f-sheets.pdf')?.content as Uint8Array;
    const words = (await readPdf(pdf)).flatMap(({ texts }) => texts.map(({ text }) => text)).join(' ');
    expect(words).toMatch(/2\s+▯▯/);
  });

  it('are told of the figure itself', async () => {
    const { warnings } = await tent('boat', '小舟');
    expect(warnings.join(' ')).toMatch(/not all of these: the figure's own\. /);
  });
});
