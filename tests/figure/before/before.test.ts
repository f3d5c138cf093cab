import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { compileFigure } from '../../../src/figure/figure.js';
import { patterns } from '../../../src/figure/patterns/index.js';
import { parseFigure } from '../../../src/figure/text/source.js';
import { measured } from './measure.js';

const folder = new URL('./figures/', import.meta.url);

// What these files meant was written down before figure files could speak of the open figure.
it.each(readdirSync(folder))('%s still means the same', async (file) => {
  const figure = compileFigure(parseFigure(readFileSync(new URL(file, folder), 'utf8'), file));
  await expect(JSON.stringify(measured(figure), null, 1)).toMatchFileSnapshot(`meant/${file}.txt`);
});

// The same figures as they are written now, without sines and roots: they move as they did, to a hundredth of a millimetre.
const now = new Map<string, string>([
  ...['ferryman', 'heron', 'tightrope', 'stuck-drummer', 'variants/symmetric', 'variants/asymmetric'].map(
    (name) =>
      [
        `${name.replace('variants/', '')}.yaml`,
        readFileSync(new URL(`../../../examples/${name}.yaml`, import.meta.url), 'utf8'),
      ] as const,
  ),
  ...patterns.map(({ name, text }) => [`${name}.yaml`, text] as const),
]);

it.each(readdirSync(folder))('%s moves as it did, and has no trigonometry', (file) => {
  const text = now.get(file) ?? '';
  expect(text).not.toMatch(/\b(?:a?sin|a?cos|a?tan|sqrt)\s*\(/);
  const found = numbersIn(measured(compileFigure(parseFigure(text, file))));
  const meant = numbersIn(JSON.parse(readFileSync(new URL(`./meant/${file}.txt`, import.meta.url), 'utf8')));
  expect(found.length).toBe(meant.length);
  const off = found.map((value, i) => Math.abs(value - meant[i]));
  expect(Math.max(...off)).toBeLessThan(0.02);
});

const numbersIn = (found: object): number[] =>
  [...JSON.stringify(found).matchAll(/-?\d+(?:\.\d+)?(?:e-\d+)?/g)].map(([number]) => Number(number));
