import { expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { patterns } from '../../src/figure/patterns/index.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { stepInWords } from '../../src/sheets/guide/step-words.js';

import { PROP } from '../support/prop.js';
import { plan } from './figures.js';

/** What the guide says of how the parts of each hub lie on each other. */
const laid = (text: string) => {
  const figure = compileFigure(parseFigure(text, 'hubs.yaml'));
  const assembly = figure.build(figure.start);
  const made = plan(assembly, { paper: 'A3' });
  return made.steps
    .filter(({ kind }) => kind === 'hub')
    .map((step) => {
      const { lines } = stepInWords(step, new Map(), made.pieces, (k) => assembly.panels[k].name);
      return (
        /Lay hole on hole(?:: (.*?))?\. Fold/.exec(lines[1])?.[1]?.replace(/ \(\d+\)/g, '') ?? 'either way'
      );
    });
};

test('a limb that leads from a deck down to the page lies under the deck, whichever is named first', () => {
  expect(laid(PROP)).toEqual(['oar on the back of deck layer']);
  expect(
    laid(
      PROP.replace(
        'between: [deck layer left, oar], at: [8, 20], meets: [0, 0]',
        'between: [oar, deck layer left], at: [0, 0], meets: [8, 20]',
      ),
    ),
  ).toEqual(['deck layer on the printed face of oar']);
});

test('of a leg each next limb towards the page lies below', () => {
  const text = patterns.find(({ name }) => name === 'limb-on-hubs')?.text ?? '';
  // Thigh and floor, shin and thigh: what is named second is the upper one.
  expect(laid(text)).toEqual(['floor on the printed face of thigh', 'thigh on the printed face of shin']);
});

test('what stays in one plane may lie either way', () => {
  const arm = `page: A5
parts:
  - { name: board, kind: glued-piece, on: left page, at: [-100, 60], outline: [[0, 0], [60, 0], [60, 40], [0, 40]] }
  - { name: arm, kind: link, on: board, from: [10, 20], to: [50, 20], width: 8 }
  - { name: hub, kind: pivot, between: [board, arm], at: [10, 20] }
  - { name: toe, kind: pivot, between: [board, arm], at: [50, 20] }
`;
  expect(laid(arm)).toEqual(['either way', 'either way']);
});
