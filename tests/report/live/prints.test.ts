import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { read } from '../../../src/index.js';
import { onPrint } from '../../../src/report/live/prints.js';
import { pageArtOf } from '../../../src/report/page-art.js';

describe('a drawing on card', () => {
  it('lies in the panel as its matrix has it, from the lower left corner of its picture', () => {
    // A drawing of 40 × 20 mm with 3 mm round it, its top left corner at (10, 30) of the panel, turned a quarter left.
    const print = { left: -3, top: -3, width: 46, height: 26 } as const;
    const matrix = [0, 1, 1, 0, 10, 30] as const;
    // The drawing's right is the panel's up; its down is the panel's right.
    const points = new Float32Array([10, 30, 0.1, 10, 70, 0.1, 30, 30, -0.1]);
    const uv = onPrint(points, { panel: 0, face: 1, matrix, print: { ...print, texture: null as never } });
    const expected = [3 / 46, 1 - 3 / 26, 43 / 46, 1 - 3 / 26, 3 / 46, 1 - 23 / 26];
    expected.forEach((value, i) => {
      expect(uv[i]).toBeCloseTo(value, 6);
    });
  });
});

describe('the art of a page', () => {
  const folder = mkdtempSync(join(tmpdir(), 'page-art-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const artOf = (svg: string, art = '{ on: [left page, right page], drawing: a.svg }') => {
    writeFileSync(join(folder, 'a.svg'), svg);
    const parts = '[{ name: t, kind: parallel-fold, at: 40, length: 60, glue: 30, widths: 40 }]';
    writeFileSync(join(folder, 'f.yaml'), `page: A5\nparts: ${parts}\nart: [${art}]\n`);
    return pageArtOf(read(join(folder, 'f.yaml')));
  };
  const svg = (body: string) =>
    `<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9">${body}</svg>`;

  it('is cleaned, and holds each drawing once', () => {
    const { art, notes } = artOf(
      svg(
        '<script>alert(1)</script><image href="http://example.org/x.png"/><path fill="#123456" d="M0 0h9v9z"/>',
      ),
    );
    expect(art.places.map(({ on, drawing }) => [on, drawing])).toEqual([
      ['left page', 0],
      ['right page', 0],
    ]);
    expect(art.drawings).toEqual([
      {
        width: 9,
        height: 9,
        picture: null,
        strokes: [{ d: 'M0 0H9V9Z', fill: '#123456', stroke: null, width: 1, evenOdd: false }],
      },
    ]);
    expect(notes.join()).toMatch(/'script', 'image'/);
  });

  it('that cannot be read is told, and the page is made without it', () => {
    const { art, notes } = artOf('<svg');
    expect(art.places).toEqual([]);
    expect(notes.join()).toMatch(/a\.svg/);
    expect(artOf(svg(''), '{ on: t, drawing: gone.svg }').notes.join()).toMatch(/gone\.svg.*not beside/);
  });

  it('that is too large for a page is told', () => {
    // Four letters of a way become ten each once they are places.
    const long = `<path fill="#123456" d="M-9234.123 -9234.123${'h9v9h-9v-9'.repeat(9_000)}z"/>`;
    const { art, notes } = artOf(svg(long.repeat(12)));
    expect(art.drawings).toEqual([]);
    expect(notes).toEqual(['Its drawings are too large to be shown in this page.']);
  });
});
