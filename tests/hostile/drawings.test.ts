import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readFigure } from '../../src/figure/read.js';

const SQUARE = '<path id="p" d="M0 0H20V20H0Z"/></svg>';
const SVG = '<svg width="100mm" height="100mm" viewBox="0 0 100 100">';

/** Reads a figure with one outline for each drawing that it names, in a folder called `fig`. */
function reading(drawings: string[], files: Record<string, string>): () => unknown {
  const folder = join(mkdtempSync(join(tmpdir(), 'dummyrun-drawings-')), 'fig');
  mkdirSync(join(folder, 'art'), { recursive: true });
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  const parts = drawings.map(
    (svg, i) =>
      `{ name: a${i}, kind: glued-piece, on: left page, at: [0, 0], outline: { svg: ${svg}, path: p } }`,
  );
  writeFileSync(join(folder, 'figure.yaml'), `page: A5\nparts: [${parts.join(', ')}]\n`);
  return () => readFigure(join(folder, 'figure.yaml'));
}

test('a drawing below the figure file is read, also by a way round that stays below', () => {
  const files = { 'art/boat.svg': SVG + SQUARE };
  expect(reading(['art/boat.svg', './art/../art/boat.svg'], files)).not.toThrow();
});

test('a drawing is not named by a way out and in again: a copy of the figure would take it elsewhere', () => {
  const files = { 'boat.svg': SVG + SQUARE };
  expect(reading(['../fig/boat.svg'], files)).toThrow('which lies elsewhere');
  expect(reading(['art/../../fig/boat.svg'], files)).toThrow('which lies elsewhere');
});

test('a drawing is called .svg, so that its copy never takes the place of another result', () => {
  const files = { 'tune.json': SVG + SQUARE, 'BOAT.SVG': SVG + SQUARE };
  expect(reading(['tune.json'], files)).toThrow('does not end in .svg');
  expect(reading(['BOAT.SVG'], files)).not.toThrow();
});

test('many large drawings are refused together, before they fill the memory', () => {
  const large = SVG + ' '.repeat(2_800_000) + SQUARE;
  const drawings = ['a.svg', 'b.svg', 'c.svg'];
  const files = Object.fromEntries(drawings.map((name) => [name, large]));
  expect(reading(drawings.slice(0, 2), files)).not.toThrow();
  expect(reading(drawings, files)).toThrow("found 'c.svg', too large beside the others");
});
