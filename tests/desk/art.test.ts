import { readFileSync } from 'node:fs';
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
