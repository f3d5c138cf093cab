import { expect, it } from 'vitest';
import { gluedTogether } from '../../src/card/doubled.js';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { stripsBetween } from '../../src/score/force/strips.js';

/** A tent of card 60 mm long and 30 mm wide a side, and the stiffness of the strips of its left one on the way up its middle. */
function strips(spreads: boolean, parts = '', outline = '', to: readonly [number, number] = [30, 30]) {
  const figure = compileFigure(
    parseFigure(
      `figure: x\npage: A5 portrait\nparts:\n  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [20, 20], widths: [30, 30]${outline} }\n${parts}`,
      'x.yaml',
    ),
  );
  const assembly = figure.build(figure.start);
  const panel = assembly.panels.findIndex(({ name }) => name === 'tent left');
  const { up } = assembly.panels[panel];
  const card = figure.card.of('tent');
  const way = [to[0], up * to[1]] as const;
  return { ...stripsBetween(assembly, panel, [30, 0], way, figure.card, spreads), card };
}

it('the whole breadth of a panel bears, or as much as the load has spread to at 45° from the shoulder of a hub', () => {
  const { bends, pulls, card } = strips(false);
  for (const b of bends) expect(b).toBeCloseTo(60 * card.stiffness.any.bend, 9);
  for (const a of pulls) expect(a).toBeCloseTo(60 * card.stiffness.any.pull, 9);
  strips(true).bends.forEach((b, s) => {
    const from = ((s + 0.5) * 30) / 8;
    expect(b / card.stiffness.any.bend).toBeCloseTo(Math.min(60, 2 * (2 + from)), 6);
  });
});

it('where card is glued on, both bear together; a hole bears nothing', () => {
  const glued = '  - { name: plank, kind: stiffener, on: tent left, at: [10, 15], size: [40, 15] }\n';
  const { bends, pulls, card } = strips(false, glued);
  const { any } = card.stiffness;
  const both = gluedTogether(any, card.thickness, any, card.thickness);
  expect(bends[1]).toBeCloseTo(60 * any.bend, 9);
  expect(bends[6]).toBeCloseTo(20 * any.bend + 40 * both.bend, 9);
  expect(pulls[6]).toBeCloseTo(20 * any.pull + 40 * both.pull, 9);
  const holed =
    ', outlines: { left: { polygon: [[0, 0], [60, 0], [60, 30], [0, 30]], holes: [[[25, 15], [35, 15], [35, 26], [25, 26]]] } }';
  expect(strips(false, '', holed).bends[5]).toBeCloseTo(50 * any.bend, 9);
  expect(strips(false, '', holed).bends[1]).toBeCloseTo(60 * any.bend, 9);
});

it('beyond the card a strip of half a millimetre is taken to be there', () => {
  const { bends, pulls, card } = strips(false, '', '', [30, 60]);
  expect(bends[7]).toBeCloseTo(0.5 * card.stiffness.any.bend, 9);
  expect(pulls[7]).toBeCloseTo(0.5 * card.stiffness.any.pull, 9);
});
