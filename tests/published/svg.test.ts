import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { boxOf, movedRing } from '../../src/geometry/plane.js';
import { emptyDrawing } from '../../src/sheets/drawn/drawing.js';
import { toSvg } from '../../src/sheets/drawn/svg.js';
import { makeSheets } from '../../src/sheets/make-sheets.js';
import { example, plan } from '../sheets/figures.js';

/** SVG 1.1, read back by a strict XML parser (saxes) and by a browser (Chromium). */

interface Element {
  readonly name: string;
  readonly attributes: Record<string, string>;
  readonly group: string;
}

function read(svg: string): { elements: Element[]; texts: string[] } {
  const elements: Element[] = [];
  const texts: string[] = [];
  const open: string[] = [];
  const parser = new SaxesParser();
  parser.on('opentag', ({ name, attributes }) => {
    const own = attributes as Record<string, string>;
    elements.push({ name, attributes: own, group: open[open.length - 1] ?? '' });
    open.push(name === 'g' ? own.id : (open[open.length - 1] ?? ''));
    if (name === 'text') texts.push('');
  });
  parser.on('closetag', () => open.pop());
  parser.on('text', (text) => {
    if (texts.length > 0 && text.trim() !== '') texts[texts.length - 1] += text;
  });
  parser.on('error', (error) => {
    throw error;
  });
  parser.write(svg).close();
  return { elements, texts };
}

const { files } = await makeSheets(example('heron'), {
  figure: 'heron',
  candidate: 'candidate 17',
});
const svgs = files.filter(({ name }) => name.endsWith('.svg')).map(({ content }) => content as string);
const { sheets } = plan(example('heron'));

describe('the sheets in SVG', () => {
  it('have a size in mm and one group for each kind of line', () => {
    expect(svgs).toHaveLength(sheets.length);
    for (const svg of svgs) {
      const { elements } = read(svg);
      expect(elements[0]).toMatchObject({
        name: 'svg',
        attributes: { width: '210mm', height: '297mm', viewBox: '0 0 210 297' },
      });
      const groups = elements.filter(({ name }) => name === 'g').map(({ attributes }) => attributes.id);
      expect(groups).toEqual([
        'shading',
        'cut',
        'mountain',
        'valley',
        'both-ways',
        'glue-line',
        'glue-area',
        'glue-behind',
        'note',
        'key',
        'text',
      ]);
      // No colours: greys only.
      for (const { attributes } of elements)
        for (const ink of [attributes.stroke, attributes.fill])
          if (ink?.startsWith('#')) expect(ink).toMatch(/^#(..)\1\1$/);
    }
  });

  it('close every contour, y turned down', () => {
    sheets.forEach(({ placed, paper }, i) => {
      const { elements } = read(svgs[i]);
      const cuts = elements
        .filter(({ name, group }) => name === 'path' && group === 'cut')
        .map(({ attributes: { d } }) => d);
      for (const { piece, place } of placed)
        for (const ring of piece.lines.contours) {
          const want = movedRing(place, ring);
          const drawn = cuts
            .filter((d) => d.endsWith('Z'))
            .map((d) =>
              [...d.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map((m) => [
                Number(m[1]),
                paper.height - Number(m[2]),
              ]),
            );
          expect(
            drawn.some(
              (points) =>
                points.length === want.length &&
                want.every(([x, y], k) => Math.hypot(points[k][0] - x, points[k][1] - y) < 0.001),
            ),
            piece.net.name,
          ).toBe(true);
        }
    });
  });

  it.each([
    '<script>alert(1)</script>',
    '"><image href=x onerror=alert(1)>',
    "' & ]]> <!-- --> &lt;",
    '\u0000\u0008\uFFFF\uD800 lone',
    'boat\nwith\rlines',
  ])('hold %j as text and nothing else', (name) => {
    const drawing = emptyDrawing(100, 50);
    drawing.texts.push({ at: [10, 10], text: name, size: 3, anchor: 'middle', turn: 90, bold: true });
    const { elements, texts } = read(toSvg(drawing, name));
    expect(new Set(elements.map((element) => element.name))).toEqual(new Set(['svg', 'title', 'g', 'text']));
    expect(texts).toHaveLength(1);
  });
});

const CHROMIUM = ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find(existsSync);

describe('in a browser', () => {
  it.skipIf(CHROMIUM === undefined && process.env.CI === undefined)(
    'every sheet and every piece is as large as it should be',
    () => {
      const folder = mkdtempSync(join(tmpdir(), 'sheets-'));
      try {
        const page = join(folder, 'sheet.html');
        const script = `
          const mm = 96 / 25.4;
          const svg = document.querySelector('svg');
          const size = svg.getBoundingClientRect();
          const boxes = [...document.querySelectorAll('#cut path')].map((path) => {
            const { width, height } = path.getBBox();
            return [width, height];
          });
          document.body.textContent = JSON.stringify({ size: [size.width / mm, size.height / mm], boxes });`;
        const body = svgs[0].replace(/^<\?xml.*\?>/, '');
        writeFileSync(
          page,
          `<!doctype html><meta charset="utf-8"><body style="margin:0">${body}<script>${script}</script>`,
        );
        const dom = execFileSync(
          CHROMIUM ?? 'chromium',
          [
            '--headless',
            '--no-sandbox',
            '--disable-gpu',
            `--user-data-dir=${folder}/user`,
            '--dump-dom',
            `file://${page}`,
          ],
          { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'], timeout: 60_000 },
        );
        const { size, boxes } = JSON.parse(/<body[^>]*>(.*)<\/body>/s.exec(dom)?.[1] ?? '{}') as {
          size: number[];
          boxes: [number, number][];
        };
        expect(size[0]).toBeCloseTo(210, 1);
        expect(size[1]).toBeCloseTo(297, 1);
        for (const { piece, place } of sheets[0].placed) {
          const { left, low, right, high } = boxOf(movedRing(place, piece.lines.contours[0]));
          const found = boxes.some(
            ([w, h]) => Math.abs(w - right + left) < 0.01 && Math.abs(h - high + low) < 0.01,
          );
          expect(found, piece.net.name).toBe(true);
        }
      } finally {
        rmSync(folder, { recursive: true, force: true });
      }
    },
    90_000,
  );
});
