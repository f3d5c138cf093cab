import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { drawingsFor } from '../../src/desk/drawings.js';
import { Kernel } from '../../src/desk/page/kernel.js';

it('the desk shows what is printed on a figure, where it lies', () => {
  const path = 'examples/heron.yaml';
  const text = readFileSync(path, 'utf8');
  const drawings = drawingsFor(path, text);
  expect(drawings.art?.drawings.length).toBe(4);
  const kernel = new Kernel();
  kernel.read(text, path, drawings);
  const { printed, on } = kernel.rest(1);
  const names = printed.map(({ panel }) => on[panel]).sort();
  expect(names).toEqual([
    'far left',
    'far right',
    'head left',
    'head right',
    'heron',
    'left page',
    'near left',
    'near right',
    'nest',
    'right page',
  ]);
  expect(printed.every(({ art }) => art < 4)).toBe(true);
});

it('a figure without art, or with a fault, has none', () => {
  const text =
    'page: A5\nparts: [{ name: t, kind: parallel-fold, at: 40, length: 60, glue: 30, widths: 40 }]\n';
  const drawings = drawingsFor('none.yaml', text);
  expect(drawings.art?.places).toEqual([]);
  const kernel = new Kernel();
  kernel.read(text, 'none.yaml', drawings);
  expect(kernel.rest(1).printed).toEqual([]);
  expect(drawingsFor('none.yaml', 'page: [')).toEqual({ outlines: {} });
});

it('of two drawings, one of which is not there, the other is read, and each has its own fault', () => {
  const folder = mkdtempSync(join(tmpdir(), 'drawings-'));
  writeFileSync(
    join(folder, 'boat.svg'),
    '<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="10mm" viewBox="0 0 30 10"><path id="hull" d="M0 0H30L20 10H5Z"/></svg>',
  );
  const [boat, oar] = ['{ svg: boat.svg, path: hull }', '{ svg: oar.svg, path: oar }'];
  const text = `page: A5
parts:
  - { name: a, kind: glued-piece, on: left page, at: [0, 0], outline: ${oar} }
  - { name: b, kind: glued-piece, on: right page, at: [0, 0], outline: ${boat} }
`;
  const { outlines = {} } = drawingsFor(join(folder, 'two.yaml'), text);
  expect(Object.values(outlines)).toEqual([
    { fault: expect.stringMatching(/two\.yaml:3:.*oar\.svg.*no such file/s) },
    { outline: { polygon: expect.any(Array) } },
  ]);
  // What is on the way to the disk is read as it will be, whatever lies there now.
  expect(Object.values(drawingsFor('/nowhere/at/all.yaml', text).outlines ?? {})).toHaveLength(2);
});
