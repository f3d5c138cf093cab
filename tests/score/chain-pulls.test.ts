import { expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import type { Scorecard } from '../../src/score/scorecard.js';
import { Scorer } from '../../src/score/scorer.js';
import { PROP } from '../support/prop.js';

const scored = (text: string): Scorecard => {
  const figure = compileFigure(parseFigure(text, 'prop.yaml'));
  return new Scorer(figure).score(figure.start);
};
const prop = (long: number, parts = '', card = '') =>
  scored(
    PROP.replace('start: 50', `start: ${long}`)
      .replace('# more', parts)
      .replace('240, bulk', `240${card}, bulk`),
  );
const plank = '- { name: plank, kind: stiffener, on: oar, at: [8, -3], size: [32, 6], face: back }';
const give = ({ limits }: Scorecard) => limits.find(({ name }) => name === 'give')?.value ?? Number.NaN;
const chain = ({ chains }: Scorecard) => {
  if (chains === null) throw new Error('it has no chains');
  return chains;
};

it('a prop as long as it should be is not pushed', () => {
  const { pull, bend, bow } = chain(prop(50));
  expect(Math.max(pull.value, bend.value, bow.value)).toBeLessThan(0.001);
});

it('too long, it bows aside at Euler’s load, by as much as it is shortened', () => {
  const { pull, bow } = chain(prop(51.5));
  // D 7.5 N mm, 8 mm wide, 51.5 mm from hub to toe, and 20 % of a mm that the deck gives.
  expect(pull.value).toBeGreaterThan(0.15);
  expect(pull.value).toBeLessThan((Math.PI ** 2 * 7.5 * 8) / 51.5 ** 2);
  expect(bow.at?.panels).toEqual(['oar']);
  expect(bow.pageAngle).toBe(180);
  expect(bow.value).toBeCloseTo((2 / Math.PI) * Math.sqrt(give(prop(51.5)) * 51.5), 1);
});

it('stiffened it stays straight, pushes harder, and the deck bends instead', () => {
  const [bare, stiff] = [prop(51.5), prop(51.5, plank)].map(chain);
  expect(stiff.bow.value).toBeCloseTo(0, 6);
  expect(stiff.pull.value).toBeGreaterThan(2 * bare.pull.value);
  expect(stiff.bend.value).toBeGreaterThan(2 * bare.bend.value);
  expect(stiff.bend.at?.panels).toEqual(['deck layer left']);
  expect(give(prop(51.5))).toBeGreaterThan(0.5);
  expect(give(prop(51.5, plank))).toBeLessThan(0.1);
});

it('the longer it is the harder it pushes the book shut, and nothing leaps', () => {
  const open = [50.8, 51.2, 51.6, 52].map((long) => prop(long, plank).force?.toOpen.value ?? 0);
  for (let i = 1; i < open.length; i++) expect(open[i]).toBeGreaterThan(open[i - 1]);
  for (const long of [51, 51.4]) {
    const [here, there] = [prop(long), prop(long + 1e-6)];
    expect(Math.abs(give(here) - give(there))).toBeLessThan(1e-4);
    expect(Math.abs(chain(here).pull.value - chain(there).pull.value)).toBeLessThan(1e-3);
  }
});

it('what card takes up in a chain is taken up once: by hand no more is excused than as drawn, of a plate 3 mm', () => {
  const byHand = (text: string) => {
    const figure = compileFigure(parseFigure(text, 'x.yaml'));
    const template = figure.template(figure.start);
    const scorer = new Scorer(figure);
    const exact = new Float64Array(template.cuts.length);
    const cards = [scorer.score(figure.start), scorer.scoreCut(template, exact, figure.start)];
    return cards.map(({ limits }) => limits.find(({ name }) => name === 'give'));
  };
  const [drawn, cut] = byHand(PROP.replace('start: 50', 'start: 52'));
  expect(drawn?.met).toBe(false);
  expect(cut?.met).toBe(false);
  expect(cut?.value).toBeCloseTo(drawn?.value ?? 0, 2);
  // Its second line lies nearer to the first than its support does.
  const shelf = (short: number) => `figure: shelf
page: A5 portrait
parts:
  - { name: box, kind: parallel-fold, at: 60, length: 60, glue: [30, 30], widths: [30, 30] }
  - { name: shelf, kind: plate, supports: [{ panel: box left, line: [[10, 20], [50, 20]] }, { panel: left page, line: [[-60, 70], [-60, 110]], meets: [[0, ${30 - short}], [40, ${30 - short}]] }] }
`;
  const [whole, taken] = byHand(shelf(4));
  expect(whole?.value).toBeGreaterThan(3.5);
  expect(taken?.value).toBeCloseTo((whole?.value ?? 0) - 3, 6);
});

it('what misses by more than 3 mm is excused by no soft card', () => {
  expect(give(prop(58, '', ', bending: [0.01, 0.01]'))).toBeGreaterThan(0.5);
});
