import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { compileFigure, type Figure } from '../../../src/figure/figure.js';
import { parseFigure } from '../../../src/figure/text/source.js';
import { cardArea } from '../../../src/geometry/polygon.js';
import { Opening } from '../../../src/motion/opening.js';
import { Referred } from '../../../src/score/trims/referred.js';
import { findTrims, type TrimOptions } from '../../../src/score/trims/trims.js';

const DRUMMER = readFileSync('examples/stuck-drummer.yaml', 'utf8');
const figureOf = (text: string): Figure => compileFigure(parseFigure(text, 'figure.yaml'));
const offers = (text: string, options: TrimOptions = {}) => {
  const figure = figureOf(text);
  const [only] = findTrims(figure, figure.start, options).catches;
  return {
    from: only.offers.map(({ panel }) => panel).sort(),
    without: Object.fromEntries(only.without.map(({ panel, why }) => [panel, why])),
    shares: only.offers.map(({ panel, area, share }) => {
      const { panels } = figure.build(figure.start);
      const panel_ = panels.find(({ name }) => name === panel);
      return share - (100 * area) / (panel_ === undefined ? Number.NaN : cardArea(panel_));
    }),
  };
};

describe('a cut that frees a catch', () => {
  test('tells what it takes, as a share of the panel', () => {
    const { from, shares } = offers(DRUMMER);
    expect(from).toEqual(['drum right', 'stick']);
    for (const off of shares) expect(off).toBeCloseTo(0, 9);
  });

  test('does not take the end of a stick that a want looks at', () => {
    const want =
      '  - { name: its tip rises, kind: rise, panel: stick, point: [reach - 0.5, 2.5], least: 20 }';
    const { from, without } = offers(`${DRUMMER}${want}\n`);
    expect(from).toEqual(['drum right']);
    expect(without.stick).toMatch(/takes the point of 'its tip rises'|neck too narrow|in two/);
  });

  test('takes no more than a tenth of a panel, unless that is asked for', () => {
    // A longer stick: the plainest cut takes a third of it, a notch of three strokes less than a tenth.
    const long = DRUMMER.replace('start: 28 }', 'start: 38 }');
    const shareOf = (most?: number) => {
      const figure = figureOf(long);
      const [{ offers: all }] = findTrims(figure, figure.start, { most }).catches;
      return all.find(({ panel }) => panel === 'stick')?.share;
    };
    expect(shareOf(100)).toBeGreaterThan(25);
    expect(shareOf()).toBeLessThan(10);
    expect(offers(long, { most: 5 }).without.stick).toBe('the cut would take more than 5 % of it');
  });

  test('counts what trims have taken before', () => {
    // 4 mm² of its 140 are gone already, and its corner is 3 % more.
    const before = `${DRUMMER}\ntrims: [{ panel: stick, region: [[24, -1], [30, -1], [30, 1], [24, 1]] }]\n`;
    expect(offers(before, { most: 4 }).from).not.toContain('stick');
    expect(offers(before, { most: 10 }).from).toContain('stick');
  });
});

test('what passes through a slot stays: no cut may touch it there', () => {
  const figure = figureOf(`page: A5
parts:
  - { name: v, kind: v-fold, at: 60, glue: [60, 60], panels: [64, 64], feet: [40, 40], ridge: 50 }
  - { name: board, kind: parallel-fold, at: 70, length: 80, glue: [30, 30], widths: [60, 60] }
  - { name: gap, kind: slot, on: board left, outline: [[10, 5], [25, 5], [25, 25], [10, 25]], passes: v left }
`);
  const assembly = figure.build(figure.start);
  const opening = new Opening();
  opening.run(assembly, 2);
  const k = assembly.panelNamed('v left', '');
  const { outline } = assembly.panels[k];
  const hand = new Referred(assembly, opening, [], k);
  expect(hand.takenBy(outline)).toBe("takes what passes through 'gap'");
  expect(hand.missingFrom({ outline: Float64Array.of(0, 0, 0.1, 0, 0, 0.1), holes: [] })).toBe(
    "takes what passes through 'gap'",
  );
  expect(hand.takenBy(Float64Array.of(-20, -20, -10, -20, -10, -10))).toBeNull();
  expect(hand.missingFrom(assembly.panels[k])).toBeNull();
});
