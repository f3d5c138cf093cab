import { DOMParser } from 'linkedom';
import { beforeAll, describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { readFigure } from '../../src/figure/read.js';
import { tunePage } from '../../src/report/pages/tune-page.js';
import { pictureOf } from '../../src/report/pages/tune-picture.js';
import type { Tuned } from '../../src/tune/tune.js';
import { BREAKS, brokenFigure } from '../broken/breaks.js';
import { figureFrom, tuned } from './support.js';

const drummer = readFigure('examples/stuck-drummer.yaml');
/** What frees him, asked once for all pages that show it. */
let freed: Tuned;
beforeAll(async () => {
  freed = await tuned(drummer);
});

describe('the page of a figure that was tuned', { timeout: 60_000 }, () => {
  it('shows it stuck, its place ringed, and each remedy beside it', async () => {
    const remedies = freed.remedies.map(({ text }, i) => ({
      figure: compileFigure(figureFrom(text)),
      file: `out/remedy-${i + 1}.yaml`,
    }));
    const page = tunePage(compileFigure(drummer), freed, remedies);
    expect(page).not.toMatch(/NaN|undefined|<script/);
    const document = new DOMParser().parseFromString(page, 'text/html');
    // The chart of the force beside the pictures.
    expect(document.querySelectorAll('svg').length).toBe(2 + remedies.length);
    expect(document.querySelectorAll('circle').length).toBe(2);
    expect([...document.querySelectorAll('figcaption a')].map((link) => link.getAttribute('href'))).toEqual(
      remedies.map((_, i) => `remedy-${i + 1}.yaml`),
    );
    // The two that catch are coloured, and nothing else is.
    const coloured = [...document.querySelectorAll('figure')][0].querySelectorAll(
      'path[fill="#e09a7d"] title',
    );
    expect([...coloured].map((title) => title.textContent).sort()).toEqual(['drum right', 'stick']);
  });

  it('colours what sticks out, whatever signs are in its name', async () => {
    const source = figureFrom(
      `page: A5\nparts:\n  - { name: "jay's: tent", kind: parallel-fold, at: 40, length: 60, glue: [30, 30], widths: [130, 130] }\n`,
    );
    const found = await tuned(source);
    const document = new DOMParser().parseFromString(tunePage(compileFigure(source), found, []), 'text/html');
    const coloured = [...document.querySelectorAll('path[fill="#e09a7d"] title')];
    expect(coloured.map(({ textContent }) => textContent)).toEqual(["jay's: tent left"]);
  });

  it('tells of colours and rings only where there are any', async () => {
    const caption = (source: typeof drummer, found: Tuned) => {
      const page = tunePage(compileFigure(source), found, []);
      return new DOMParser().parseFromString(page, 'text/html').querySelector('figcaption')?.textContent;
    };
    expect(caption(drummer, freed)).toContain('Coloured is what is named first. Ringed is the place.');
    const low = figureFrom(`page: A5
dims: { side: { from: 35, to: 60, start: 40 } }
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [30, 30], widths: [side, side] }
wants:
  - { name: high, kind: rise, panel: tent left, least: 50 }
`);
    expect(caption(low, await tuned(low))).toMatch(/seen from the foot of the page\.$/);
  });

  it('says so where nothing frees it', async () => {
    const found = await tuned(drummer, {
      hold: ['drum', 'drummer', 'stick', 'rim', 'stand', 'lean', 'tall', 'raise', 'reach'],
    });
    expect(found.remedies).toEqual([]);
    expect(tunePage(compileFigure(drummer), found, [])).toContain('nothing that was tried frees it');
  });
});

describe('a picture', { timeout: 60_000 }, () => {
  it('is drawn of any broken figure that can be built, as far as it shuts', () => {
    for (const broken of BREAKS) {
      const figure = compileFigure(brokenFigure(broken));
      const picture = pictureOf(figure, { pageAngle: 40, isNamed: () => false, marks: [] });
      if (/folded out/.test(broken.fails.join())) expect(picture).toBeNull();
      else expect(picture?.drawn.text).toMatch(/^<svg [^>]*aria-label="[^"]+ at a page angle of \d/);
      expect(picture?.drawn.text ?? '').not.toContain('NaN');
    }
  });
});
