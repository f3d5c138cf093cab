import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { crc32, deflateSync } from 'node:zlib';
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { SaxesParser } from 'saxes';
import { afterAll, describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { drawingsOf } from '../../src/figure/read.js';
import { boxOf } from '../../src/geometry/plane.js';
import { parse, read, sheets as sheetsOf } from '../../src/index.js';
import { cleanDrawing } from '../../src/sheets/art/clean-drawing.js';
import { cleanPicture } from '../../src/sheets/art/clean-picture.js';
import { readPanelArt } from '../../src/sheets/art/read-art.js';
import { templatesOf } from '../../src/sheets/art/templates.js';
import { drawSheet } from '../../src/sheets/drawn/sheet-drawing.js';
import { toSvg } from '../../src/sheets/drawn/svg.js';
import { settingsOf } from '../../src/sheets/settings.js';
import { assemble } from '../support/assemble.js';
import { plan } from './figures.js';

const drawing = (body: string, size = 'width="40mm" height="20mm" viewBox="0 0 80 40"') =>
  cleanDrawing(`<svg xmlns="http://www.w3.org/2000/svg" ${size}>${body}</svg>`);

describe('a drawing for a panel', () => {
  it('is read in millimetres, its groups, transforms and colours worked out', () => {
    const { width, height, strokes } = drawing(
      '<g fill="#f00" transform="translate(10 0)"><rect width="20" height="10"/></g><path d="M0 0L4 0" style="stroke:#00ff00;fill:none;stroke-width:2"/>',
    );
    expect([width, height]).toEqual([40, 20]);
    expect(strokes).toEqual([
      { d: 'M5 0H15V5H5Z', fill: '#ff0000', stroke: null, width: 0.5, evenOdd: false },
      { d: 'M0 0L2 0', fill: null, stroke: '#00ff00', width: 1, evenOdd: false },
    ]);
  });

  it('keeps nothing that could run, fetch or point elsewhere, and tells it', () => {
    const { strokes, left } = drawing(
      '<script>alert(1)</script><image href="http://example.org/x.png"/><text>x</text><use href="#a"/><foreignObject><rect width="9" height="9"/></foreignObject><rect width="1" height="1" fill="url(http://example.org)" onload="x()"/>',
    );
    expect(left).toEqual(['script', 'image', 'text', 'use', 'foreignObject']);
    expect(strokes).toHaveLength(1);
    expect(JSON.stringify(strokes)).not.toMatch(/http|url|onload/);
  });

  it('must have a size', () => {
    expect(() => drawing('', 'viewBox="0 0 9 9"')).toThrow(/without a size/);
    expect(() => cleanDrawing('<html/>')).toThrow(/no SVG/);
    // Without a viewBox its units are 1/96 inch, as SVG has it; its size is told with units all the same.
    const { width, strokes } = drawing('<rect width="96" height="96"/>', 'width="50mm" height="2in"');
    expect([width, strokes[0].d]).toEqual([50, 'M0 0H25.4V25.4H0Z']);
    for (const size of ['', 'width="0" height="9"', 'width="-5" height="-5"', 'width="1e300mm" height="9mm"'])
      expect(() => drawing('', size)).toThrow(/size/);
  });

  it('reaches no farther than a figure may, whatever its transforms make of it', () => {
    for (const body of [
      '<rect width="1e308" height="1" transform="scale(1e308)"/>',
      '<path d="M0 0C1e308 0 0 1e308 1 1Z" transform="rotate(45)"/>',
      '<path d="M0 0H9" stroke="#f00" stroke-width="1e308"/>',
    ])
      expect(() => drawing(body)).toThrow(/leaves all bounds/);
  });
});

describe('art on a sheet', () => {
  const card = assemble([
    { name: 'card', kind: 'stiffener', on: 'right page', at: [20, 20], size: [60, 30] },
  ]);
  const spot = drawing(
    '<rect x="2" y="2" width="2" height="2" fill="#f00"/>',
    'width="60mm" height="30mm" viewBox="0 0 60 30"',
  );

  it('lies where its panel lies, clipped to it and its bleed, below the lines, in a layer of its own', () => {
    const options = { art: [{ on: 'card', drawing: spot, turn: 0, scale: 1 }] };
    const { sheets } = plan(card, { paper: 'A3', ...options });
    const settings = settingsOf({ figure: 'test', paper: 'A3', ...options }, card.thicknessOf);
    const drawn = drawSheet(sheets[0], 0, 1, settings);
    expect(drawn.art).toHaveLength(1);
    const [xs, ys] = [0, 1].map((axis) => drawn.art[0].clip.flat().map((p) => p[axis]));
    const sides = [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)].sort(
      (a, b) => a - b,
    );
    // 30 × 60 mm and 3 mm of bleed on every side.
    expect(sides[0]).toBeCloseTo(36, 1);
    expect(sides[1]).toBeCloseTo(66, 1);
    const order: string[] = [];
    const parser = new SaxesParser();
    parser.on('opentag', ({ name, attributes }) => {
      if (name === 'g' && attributes.id !== undefined) order.push(String(attributes.id));
    });
    parser.write(toSvg(drawn, 'test')).close();
    expect(order.slice(0, 3)).toEqual(['art', 'shading', 'cut']);
  });

  it('has a template of its size, middle on middle', () => {
    const { pieces } = plan(card, { paper: 'A3' });
    const template = templatesOf(card, pieces).find(({ panel }) => panel === 'card');
    expect([template?.drawing.width, template?.drawing.height].map((v) => Math.round(v ?? 0))).toEqual([
      80, 50,
    ]);
  });
});

describe('the library', () => {
  it('prints the art of a figure file, and says so where a figure was never a file', async () => {
    const heron = read('examples/heron.yaml');
    const isPrinted = ({ files }: Awaited<ReturnType<typeof sheetsOf>>) =>
      files.some(({ name, content }) => name.endsWith('.svg') && String(content).includes('id="art"'));
    expect(isPrinted(await sheetsOf(heron))).toBe(true);
    const made = await sheetsOf(parse(heron.text, 'from a letter.yaml'));
    expect(isPrinted(made)).toBe(false);
    expect(made.warnings.join(' ')).toMatch(/from a letter\.yaml, which is not there: nothing is printed/);
  });
});

/** A chunk of a PNG: length, name, data, check sum (ISO/IEC 15948, 5.3). */
function chunk(name: string, data: Uint8Array): Buffer {
  const named = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const [long, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  long.writeUInt32BE(data.length);
  sum.writeUInt32BE(crc32(named));
  return Buffer.concat([long, named, sum]);
}

/** A red picture with alpha, of 60 × 30 points. */
function png({
  rows = 30,
  interlace = 0,
  depth = 8,
  way = 0,
  more = [] as Buffer[],
  cut = 0,
} = {}): Uint8Array {
  const head = Buffer.from([0, 0, 0, 60, 0, 0, 0, 30, depth, 6, 0, 0, interlace]);
  const row = Buffer.concat([Buffer.from([way]), Buffer.alloc(240, Buffer.from([255, 0, 0, 255]))]);
  const all = Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', head),
    ...more,
    chunk('IDAT', deflateSync(Buffer.concat(Array.from({ length: rows }, () => row)))),
    chunk('IEND', Buffer.alloc(0)),
  ]);
  return all.subarray(0, all.length - cut);
}

describe('a picture for a panel', () => {
  it('has 300 points an inch, or is as large as it says', () => {
    expect(cleanPicture(png()).width).toBeCloseTo((60 / 300) * 25.4, 9);
    // 1000 points a metre: a millimetre each.
    const size = chunk('pHYs', Buffer.from([0, 0, 3, 232, 0, 0, 3, 232, 1]));
    const { width, height } = cleanPicture(png({ more: [size] }));
    expect([width, height]).toEqual([60, 30]);
  });

  it('keeps its points, and nothing else that a file may hold', () => {
    const text = chunk('tEXt', Buffer.from('Comment\0somebody lives here', 'latin1'));
    const { picture } = cleanPicture(png({ more: [text] }));
    expect(Buffer.from(picture ?? []).equals(Buffer.from(png()))).toBe(true);
  });

  it('is refused where it is damaged, breaks off, or unfolds to more than its size', () => {
    expect(() => cleanPicture(png({ cut: 20 }))).toThrow(/breaks off/);
    expect(() => cleanPicture(png({ rows: 3000 }))).toThrow(/damaged/);
    expect(() => cleanPicture(png({ rows: 29 }))).toThrow(/damaged/);
    // A row is written in one of five ways; the PDF library throws where nothing can catch it.
    expect(() => cleanPicture(png({ way: 4 }))).not.toThrow();
    expect(() => cleanPicture(png({ way: 5 }))).toThrow(/damaged/);
    const worn = Buffer.from(png());
    worn[60] ^= 1;
    expect(() => cleanPicture(worn)).toThrow(/damaged/);
    expect(() => cleanPicture(png({ interlace: 1 }))).toThrow(/interlac/);
    expect(() => cleanPicture(png({ depth: 16 }))).toThrow(/8 bits/);
    expect(() => cleanPicture(Buffer.from('GIF89a'))).toThrow(/no PNG/);
  });
});

describe('art of a figure file', () => {
  const folder = mkdtempSync(join(tmpdir(), 'art-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const write = (name: string, content: string | Uint8Array) => writeFileSync(join(folder, name), content);
  write('red.png', png());
  // The outline lies 7 mm from the left and 40 mm down; half of it is blue.
  write(
    'both.svg',
    `<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="60mm" viewBox="0 0 80 60">
     <path id="edge" fill="none" d="M7 10h30v30h-30z"/><path fill="#00f" d="M7 10h15v30h-15z"/></svg>`,
  );
  const figure = (art: string, outline = '') => {
    write(
      'f.yaml',
      `page: A5
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [30, 30], widths: [40, 40] }
  - { name: flag, kind: glued-piece, on: tent left, at: [5, 5], outline: ${outline || '{ polygon: [[0, 0], [30, 0], [30, 30], [0, 30]] }'} }
art: [${art}]
`,
    );
    return read(join(folder, 'f.yaml'));
  };
  const drawn = (art: string, outline = '') => {
    const source = figure(art, outline);
    const compiled = compileFigure(source);
    const { art: own } = readPanelArt(source, compiled.art);
    const { sheets } = plan(compiled.build(compiled.start), { paper: 'A2', art: own });
    return sheets
      .flatMap(({ placed }) => placed)
      .flatMap(({ piece, art: on }) => (on ?? []).map((one) => ({ piece, ...one })));
  };
  const sizeOf = (points: readonly (readonly [number, number])[]) => {
    const { left, right, low, high } = boxOf(points);
    return [right - left, high - low].sort((a, b) => a - b);
  };

  it('is refused where something else stands in the place of its file, and not waited for', () => {
    for (const name of ['folder.png', 'folder.svg']) {
      mkdirSync(join(folder, name));
      expect(() => drawn(`{ on: flag, drawing: ${name} }`)).toThrow(/what is not a file/);
    }
  });

  it('may be a picture, which comes into the PDF and the SVG', async () => {
    const [{ picture }] = drawn('{ on: flag, drawing: red.png, scale: fit }');
    expect(picture?.width).toBeCloseTo(5.08, 2);
    const made = await sheetsOf(figure('{ on: flag, drawing: red.png, scale: fit }'));
    const content = (end: string) => made.files.find(({ name }) => name.endsWith(end))?.content ?? '';
    expect(
      made.files.some(({ content: text }) => /<image [^>]*href="data:image\/png;base64,/.test(String(text))),
    ).toBe(true);
    const pdf = await getDocument({
      data: Uint8Array.from(content('-sheets.pdf') as Uint8Array),
      verbosity: 0,
    }).promise;
    const ops: number[] = [];
    for (let i = 1; i <= pdf.numPages; i++)
      ops.push(...(await (await pdf.getPage(i)).getOperatorList()).fnArray);
    expect(ops.filter((op) => op === OPS.paintImageXObject)).toHaveLength(1);
    await pdf.destroy();
  });

  it('is there once in each file, on however many panels it lies', async () => {
    const made = await sheetsOf(figure('{ on: [flag, tent left, tent right, left page], drawing: red.png }'));
    const pictures = made.files.map(({ content }) => {
      const text = Buffer.from(content).toString('latin1');
      return text.match(/<image |\/Subtype \/Image\n\/BitsPer/g)?.length ?? 0;
    });
    expect(Math.max(...pictures)).toBe(1);
    expect(made.files.filter((_, i) => pictures[i] === 1).map(({ name }) => name)).toEqual(
      expect.arrayContaining(['f-sheets.pdf', 'f-sheet-1.svg']),
    );
  });

  it('covers a panel with its bleed where it is to fit', () => {
    const [{ clip, picture }] = drawn('{ on: flag, drawing: red.png, scale: fit }');
    expect(sizeOf(clip.flat())[0]).toBeCloseTo(36, 1);
    const [a, b, c, d, e, f] = picture?.matrix ?? [0, 0, 0, 0, 0, 0];
    const { width = 0, height = 0 } = picture ?? {};
    const corners = [
      [0, 0],
      [width, 0],
      [width, height],
      [0, height],
    ].map(([x, y]): [number, number] => [a * x + c * y + e, b * x + d * y + f]);
    // Twice as wide as high: its height is that of the panel and its bleed.
    expect(sizeOf(corners).map((v) => Math.round(v * 10) / 10)).toEqual([36, 72]);
  });

  it('goes over all panels of a piece that it names', () => {
    const [{ clip, piece }] = drawn('{ on: tent, drawing: red.png, scale: fit }');
    expect(piece.net.name).toBe('tent');
    // Two panels of 40 mm side by side, 60 mm along their creases; beside the slanted ends of its tabs, bleed.
    expect(sizeOf(clip.flat()).map(Math.round)).toEqual([66, 86]);
    expect(() => drawn('{ on: tend, drawing: red.png }')).toThrow(/'tend'/);
  });

  it('may be the same on several panels', () => {
    const pieces = drawn('{ on: [flag, tent left], drawing: red.png }').map(({ piece }) => piece.net.name);
    expect(pieces.sort()).toEqual(['flag', 'tent']);
    expect(() => drawn('{ on: [flag, tend left], drawing: red.png }')).toThrow(/'tend left'/);
  });

  it('comes from one drawing with the outline', () => {
    const [{ clip, strokes }] = drawn(
      '{ on: flag, drawing: both.svg, path: edge }',
      '{ svg: both.svg, path: edge }',
    );
    const blue = strokes.find(({ fill }) => fill === '#0000ff')?.d ?? '';
    const numbers = (blue.match(/-?[\d.]+/g) ?? []).map(Number);
    expect(numbers.length).toBeGreaterThan(3);
    // Its left edge, its foot and its top lie on those of the panel, 3 mm within the clip.
    const { left, right, low, high } = boxOf(clip.flat());
    const points = pointsOfPath(blue);
    const own = boxOf(points);
    const gaps = [own.left - left, right - own.right, own.low - low, high - own.high].sort((p, q) => p - q);
    expect(gaps.map((gap) => Math.round(gap * 10) / 10)).toEqual([3, 3, 3, 18]);
  });

  it('is among the drawings of a figure that go along with it, where it lies beside it', () => {
    mkdirSync(join(folder, 'deep'), { recursive: true });
    write(
      join('deep', 'f.yaml'),
      'page: A5\nart: [{ on: a, drawing: ../red.png }, { on: b, drawing: gone.svg }]\n',
    );
    expect(drawingsOf(figure('{ on: flag, drawing: red.png }'))).toEqual(['red.png']);
    expect(
      drawingsOf(parse('page: A5\nart: [{ on: a, drawing: ../red.png }]', join(folder, 'deep', 'f.yaml'))),
    ).toEqual([]);
  });
});

/** The corners of a path of moves and lines, absolute. */
function pointsOfPath(d: string): [number, number][] {
  let [x, y] = [0, 0];
  return Array.from(d.matchAll(/([MLHV])([^MLHVZz]*)/g), ([, kind, rest]): [number, number] => {
    const numbers = rest
      .trim()
      .split(/[\s,]+/)
      .map(Number);
    if (kind === 'H') x = numbers[0];
    else if (kind === 'V') y = numbers[0];
    else [x, y] = numbers;
    return [x, y];
  });
}
