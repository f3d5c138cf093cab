import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/source.js';
import { trimsInWords } from '../../src/report/trim-words.js';
import { Scorer } from '../../src/score/scorer.js';
import { findTrims } from '../../src/score/trims.js';

const DRUMMER = readFileSync('examples/stuck-drummer.yaml', 'utf8');
const figureOf = (text: string) => compileFigure(parseFigure(text, 'drummer.yaml'));

it('a drummer who is stuck works once the lines that are offered stand in his file', () => {
  const stuck = figureOf(DRUMMER);
  expect(new Scorer(stuck).score(stuck.start).works).toBe(false);
  const words = trimsInWords(findTrims(stuck, stuck.start));
  expect(words.join('\n')).toMatch(/cut \d\.\d mm² from 'stick'/);
  const freed = figureOf(`${DRUMMER}\n${words.slice(words.indexOf('trims:')).join('\n')}\n`);
  expect(new Scorer(freed).score(freed.start).works).toBe(true);
});

it('where nothing catches, nothing is offered', () => {
  const heron = figureOf(readFileSync('examples/heron.yaml', 'utf8'));
  expect(trimsInWords(findTrims(heron, heron.start)).join('\n')).toMatch(/there is nothing to trim/);
});
