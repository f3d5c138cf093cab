import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { movedRing, type Ring } from '../../src/geometry/plane.js';
import { emptyDrawing } from '../../src/sheets/drawn/drawing.js';
import { toDxf } from '../../src/sheets/drawn/dxf.js';
import { makeSheets } from '../../src/sheets/make-sheets.js';
import { example, plan } from '../sheets/figures.js';

/** DXF for cutting machines, read back by dxf-parser. Group codes as in Autodesk's DXF reference (from memory). */

interface Entity {
  readonly type: string;
  readonly layer: string;
  readonly shape?: boolean;
  readonly vertices?: readonly { readonly x: number; readonly y: number }[];
  readonly text?: string;
}

interface Dxf {
  readonly header: Readonly<Record<string, unknown>>;
  readonly tables: {
    readonly layer: { readonly layers: Readonly<Record<string, { readonly colorIndex: number }>> };
  };
  readonly entities: readonly Entity[];
}

// Its types describe another export than the one that Node finds.
const DxfParser = createRequire(import.meta.url)('dxf-parser') as new () => {
  parseSync(text: string): Dxf | null;
};

function read(text: string): Dxf {
  const found = new DxfParser().parseSync(text);
  if (found === null) throw new Error('no DXF');
  return found;
}

const files = await makeSheets(example('tightrope'), { figure: 'tightrope' });
const { sheets } = plan(example('tightrope'));
const drawings = files.files
  .filter(({ name }) => name.endsWith('.dxf'))
  .map(({ content }) => read(content as string));

const awayFrom = (ring: Ring, { vertices = [] }: Entity): number =>
  vertices.length !== ring.length
    ? Number.POSITIVE_INFINITY
    : Math.max(...ring.map(([x, y]) => Math.min(...vertices.map((v) => Math.hypot(v.x - x, v.y - y)))));

describe('the sheets in DXF', () => {
  it('are in millimetres, with one layer for each kind of line', () => {
    expect(drawings).toHaveLength(sheets.length);
    for (const { header, tables, entities } of drawings) {
      // $INSUNITS 4: millimetres.
      expect(header.$INSUNITS).toBe(4);
      const layers = Object.keys(tables.layer.layers);
      expect(layers).toEqual(
        expect.arrayContaining([
          'CUT',
          'MOUNTAIN',
          'VALLEY',
          'BOTH_WAYS',
          'GLUE_LINE',
          'GLUE_AREA',
          'GLUE_BEHIND',
          'NOTE',
          'TEXT',
        ]),
      );
      for (const { layer } of entities) expect(layers).toContain(layer);
      // Layers tell the kinds apart, not colours.
      const colours = Object.values(tables.layer.layers).map(({ colorIndex }) => colorIndex);
      expect(new Set(colours).size).toBe(1);
    }
  });

  it('have every contour and hole as one closed polyline in CUT, at its size and place', () => {
    sheets.forEach(({ placed }, i) => {
      const cuts = drawings[i].entities.filter(
        ({ layer, type, shape }) => layer === 'CUT' && type === 'LWPOLYLINE' && shape,
      );
      const rings = placed.flatMap(({ piece, place }) =>
        [...piece.lines.contours, ...piece.lines.holes].map((ring) => movedRing(place, ring)),
      );
      expect(cuts).toHaveLength(rings.length);
      for (const ring of rings)
        expect(Math.min(...cuts.map((cut) => awayFrom(ring, cut)))).toBeLessThan(0.001);
    });
  });

  it('have the samples of the key to the lines on a layer of its own: a machine is not to crease them', () => {
    for (const { entities } of drawings) {
      const lowest = (layer: string) =>
        Math.min(
          ...entities
            .filter((entity) => entity.layer === layer)
            .flatMap(({ vertices = [] }) => vertices.map(({ y }) => y)),
        );
      expect(entities.some(({ layer }) => layer === 'KEY')).toBe(true);
      // The key is at the foot, 13 mm high with the ruler, within a margin of 10 mm.
      expect(lowest('KEY')).toBeLessThan(23);
      for (const layer of ['CUT', 'MOUNTAIN', 'VALLEY', 'BOTH_WAYS', 'GLUE_LINE', 'GLUE_AREA'])
        expect(lowest(layer)).toBeGreaterThan(23);
    }
  });

  it('have a ruler of 100 mm', () => {
    for (const { entities } of drawings) {
      const lines = entities.filter(({ layer, vertices = [] }) => layer === 'NOTE' && vertices.length === 2);
      const spans = lines.map(({ vertices = [] }) => Math.abs(vertices[1].x - vertices[0].x));
      expect(spans.filter((span) => Math.abs(span - 100) < 1e-9)).toHaveLength(1);
    }
  });

  it('name their pieces', () => {
    sheets.forEach(({ placed }, i) => {
      const texts = drawings[i].entities.flatMap(({ text }) => (text === undefined ? [] : [text])).join(' ');
      for (const { piece } of placed) expect(texts).toContain(`${piece.number}`);
    });
    const all = drawings.flatMap(({ entities }) => entities.map(({ text }) => text ?? '')).join(' ');
    expect(all).toContain('board');
    expect(all).toContain('tightrope');
  });

  it.each([
    'two\nlines',
    '0\nSECTION\n2\nENTITIES',
    'a\r\n0\r\nEOF\r\n',
    '%%c %%u %%%',
    '\\P\\U+0041 {\\fArial;x}',
    'Größe – 舟 🛶',
    '\u2028\u2029\u0000\u202e',
  ])('hold %j as one line of text and nothing else', (name) => {
    const drawing = emptyDrawing(100, 100);
    drawing.texts.push({ at: [10, 10], text: name, size: 3, anchor: 'left', turn: 0, bold: false });
    drawing.strokes.push({
      kind: 'cut',
      points: [
        [0, 0],
        [1, 0],
        [0, 1],
      ],
      closed: true,
    });
    const { entities } = read(toDxf(drawing));
    expect(entities.map(({ type }) => type)).toEqual(['LWPOLYLINE', 'TEXT']);
    expect(entities[1].text ?? '').not.toMatch(/[^\x20-\x7e]|%%|\\(?!U\+[0-9A-F]{4})/);
  });
});
