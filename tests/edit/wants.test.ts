import { expect, it } from 'vitest';
import { newWant, WANT_KINDS } from '../../src/desk/page/new-want.js';
import { addWant, askOfWant, removeWant, writtenWants } from '../../src/edit/wants.js';
import { compileFigure } from '../../src/figure/figure.js';
import { Scorer } from '../../src/score/scorer.js';
import { difference, read } from './support.js';

const SAIL = `figure: sail
page: A5 portrait
parts:
  - { name: sail, kind: v-fold, at: 70, glue: 60, panels: 68, feet: 40, ridge: 55 }   # ours
`;

it('every kind of want that the desk can say is one that the figure can be asked', () => {
  const { panels } = compileFigure(read(SAIL)).build(new Float64Array());
  const sail = panels.find(({ name }) => name === 'sail left');
  if (sail === undefined) throw new Error('the sail has a left side');
  const text = WANT_KINDS.reduce(
    (before, kind) => addWant(read(before), newWant(kind, sail, kind.usual)),
    SAIL,
  );
  expect(text.startsWith(SAIL)).toBe(true);
  const figure = compileFigure(read(text));
  const { wants } = new Scorer(figure).score(figure.start);
  expect(wants.map(({ kind }) => kind)).toEqual(WANT_KINDS.map(({ kind }) => kind));
  // Its tip, and not the end of its foot, which stays where it is glued.
  expect(wants.find(({ kind }) => kind === 'travel')?.value).toBeGreaterThan(30);
  // Measured, each of them: the tip that travels lies on the card.
  for (const { name, value, finding } of wants)
    expect([name, typeof value, finding]).toEqual([name, 'number', undefined]);
});

it('a want is changed and taken away, all other letters as they are; the last one with its list', () => {
  const want = { name: 'it rises', kind: 'rise', panel: 'sail left', least: 30 };
  const one = addWant(read(SAIL), want);
  const two = addWant(read(one), want);
  expect(writtenWants(read(two)).map(({ name }) => name)).toEqual(['it rises', 'it rises 2']);
  expect(difference(two, askOfWant(read(two), 1, 'least', 35))).toEqual([
    '-  - { name: it rises 2, kind: rise, panel: sail left, least: 30 }',
    '+  - { name: it rises 2, kind: rise, panel: sail left, least: 35 }',
  ]);
  expect(removeWant(read(two), 1)).toBe(one);
  expect(removeWant(read(one), 0).trimEnd()).toBe(SAIL.trimEnd());
});
