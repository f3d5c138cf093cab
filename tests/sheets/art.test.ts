import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { parse, read, sheets as sheetsOf } from '../../src/index.js';
import { cleanDrawing } from '../../src/sheets/art/clean-drawing.js';
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
