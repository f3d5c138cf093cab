import { expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { Scorer } from '../../src/score/scorer.js';
import { stiffenRemedies } from '../../src/tune/stiffeners.js';
import { PROP } from '../support/prop.js';
import { figureFrom, textWorks, tuned } from './support.js';

const TOO_LONG = PROP.replace('start: 50', 'start: 51.5');

it('a limb that bows aside may be stiffened, beside being made shorter', async () => {
  const { remedies } = await tuned(figureFrom(TOO_LONG));
  const shorter = remedies.find(({ changes }) => changes.some(({ setting }) => setting.name === 'prop'));
  const stiffer = remedies.find(({ stiffener }) => stiffener !== null);
  expect(shorter?.changes[0].to).toBeLessThan(51.5);
  expect(stiffer?.stiffener).toMatchObject({ on: 'oar' });
  expect(stiffer?.cost.price).toBe(1);
  // It is put in after the other parts, all other letters stay, and the file works.
  expect(stiffer?.text).toMatch(
    /kind: tongue.*\n {2}- \{ name: oar stiffener, kind: stiffener, on: oar, .*\n/,
  );
  expect(textWorks(stiffer?.text ?? '')).toBe(true);
});

const offered = (text: string, may = () => true) => {
  const source = figureFrom(text);
  const figure = compileFigure(source);
  return stiffenRemedies(source, figure, new Scorer(figure).score(figure.start), may);
};

it('what must stay as it is is not stiffened', () => {
  expect(offered(TOO_LONG)).toHaveLength(1);
  expect(offered(TOO_LONG, () => false)).toEqual([]);
});

// Drawn shorter than from the deck to the nearer end of the slit: it is pulled, and the deck alone gives.
it('where stiffening only makes the page harder to turn it is not offered', () => {
  const short = PROP.replace('start: 50', 'start: 43').replace('[-21, 46]', '[-21, 26]');
  const source = figureFrom(short);
  const figure = compileFigure(source);
  const card = new Scorer(figure).score(figure.start);
  expect(card.limits.find(({ name }) => name === 'give')?.met).toBe(false);
  expect(card.chains?.bend.value).toBeGreaterThan(1);
  expect(offered(short)).toEqual([]);
});
