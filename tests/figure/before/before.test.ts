import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { compileFigure } from '../../../src/figure/figure.js';
import { parseFigure } from '../../../src/figure/text/source.js';
import { measured } from './measure.js';

const folder = new URL('./figures/', import.meta.url);

// What these files meant was written down before figure files could speak of the open figure.
it.each(readdirSync(folder))('%s still means the same', async (file) => {
  const figure = compileFigure(parseFigure(readFileSync(new URL(file, folder), 'utf8'), file));
  await expect(JSON.stringify(measured(figure), null, 1)).toMatchFileSnapshot(`meant/${file}.txt`);
});
