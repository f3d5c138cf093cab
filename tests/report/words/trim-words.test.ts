import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { compileFigure } from '../../../src/figure/figure.js';
import { parseFigure } from '../../../src/figure/text/source.js';
import { trimsInWords } from '../../../src/report/words/trim-words.js';
import { Scorer } from '../../../src/score/scorer.js';
import { findTrims } from '../../../src/score/trims/trims.js';

const DRUMMER = readFileSync('examples/stuck-drummer.yaml', 'utf8');
const figureOf = (text: string) => compileFigure(parseFigure(text, 'drummer.yaml'));

it('a drummer who is stuck works once the lines that are offered stand in his file', () => {
  const stuck = figureOf(DRUMMER);
  expect(new Scorer(stuck).score(stuck.start).works).toBe(false);
  const words = trimsInWords(findTrims(stuck, stuck.start));
  expect(words.join('\n')).toMatch(/cut \d\.\d mm² \(3\.1 % of it\) from 'stick'/);
  const freed = figureOf(`${DRUMMER}\n${words.slice(words.indexOf('trims:')).join('\n')}\n`);
  expect(new Scorer(freed).score(freed.start).works).toBe(true);
});

it('where nothing catches, nothing is offered', () => {
  const heron = figureOf(readFileSync('examples/heron.yaml', 'utf8'));
  expect(trimsInWords(findTrims(heron, heron.start)).join('\n')).toMatch(/there is nothing to trim/);
});

it('of very many catches, the worst are looked at and the others counted', () => {
  // Six leaves on either panel of a V-fold, all so large that they run through one another past its ridge.
  const leaf = (i: number) =>
    `{ name: leaf ${i}, kind: glued-piece, on: v ${i % 2 ? 'left' : 'right'}, at: [20, 20], outline: { polygon: [[-15, -15], [15, -15], [15, ${15 + i}], [-15, ${15 + i}]] } }`;
  const fold =
    '{ name: v, kind: v-fold, at: 60, glue: [60, 60], panels: [70, 70], feet: [60, 60], ridge: 60 }';
  const crowd = figureOf(
    `page: A5\nparts: [${[fold, ...Array.from({ length: 12 }, (_, i) => leaf(i))].join(', ')}]`,
  );
  const offers = findTrims(crowd, crowd.start);
  expect(offers.catches).toHaveLength(30);
  expect(offers.more).toBeGreaterThan(0);
  const depths = offers.catches.map(({ depth }) => depth);
  expect(depths).toEqual(depths.toSorted((a, b) => b - a));
  expect(trimsInWords(offers)).toContain(`  ${offers.more} more catches, not looked at: free these first`);
}, 60_000);
