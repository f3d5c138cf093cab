import { expect, it } from 'vitest';
import type { Pdf } from '../../src/sheets/drawn/pdf.js';
import { GuidePages } from '../../src/sheets/guide/guide-page.js';

/** A PDF that only notes what is written on which page; every line of text is 4 mm high. */
function noted(): { pdf: Pdf; pages: string[][] } {
  const pages: string[][] = [];
  const doc: Record<string, unknown> = {
    text: (text: string) => pages.at(-1)?.push(text),
    heightOfString: () => (4 * 72) / 25.4,
  };
  for (const word of [
    'font',
    'fontSize',
    'fillColor',
    'lineWidth',
    'strokeColor',
    'moveTo',
    'lineTo',
    'stroke',
  ])
    doc[word] ??= () => doc;
  const pdf = { doc, printed: (text: string) => text, addPage: () => pages.push([]) } as unknown as Pdf;
  return { pdf, pages };
}

it('no page of a table has a single row, however many there are', () => {
  for (let count = 2; count < 90; count++) {
    const { pdf, pages } = noted();
    const rows = Array.from({ length: count }, (_, i) => [`row ${i}`]);
    new GuidePages(pdf, { name: 'A4', width: 210, height: 297 }).table(['head'], rows, [100]);
    const onEach = pages.map((texts) => texts.filter((text) => text.startsWith('row')).length);
    expect(onEach.reduce((sum, each) => sum + each)).toBe(count);
    expect(Math.min(...onEach)).toBeGreaterThan(1);
    expect(pages.every(([first]) => first === 'head')).toBe(true);
  }
});
