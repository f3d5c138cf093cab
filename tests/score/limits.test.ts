import { expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { reasonOf } from '../../src/report/words/finding-words.js';
import { verdict } from '../../src/report/words/words.js';
import type { Scorecard } from '../../src/score/scorecard.js';
import { Scorer } from '../../src/score/scorer.js';

/** A tent over the gutter, glued 40 mm on either side of it. */
function tent(width: number, limits = '{ coveredBelow: 90 }'): Scorecard {
  const source = parseFigure(
    `page: A5
dims: { wide: ${width} }
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [40, 40], widths: [wide, wide] }
limits: ${limits}
keepClear:
  - { name: letter, on: left page, from: [-20, 195, 1], to: [-5, 205, 10] }
`,
    'tent.yaml',
  );
  const figure = compileFigure(source);
  return new Scorer(figure).score(figure.start);
}

test('a tent too narrow to open says that it locks, and nothing of what the page would have shown', () => {
  const card = tent(30);
  expect(card.locks?.pageAngle).toBe(180);
  const [shuts, ...others] = card.limits;
  expect(shuts).toMatchObject({ name: 'shuts', value: 180, met: false });
  expect(others.map(({ name }) => name)).toContain('keep clear');
  for (const limit of others) {
    expect(limit.value).toBeNull();
    expect(limit.met).toBe(false);
    expect(reasonOf(limit)).toMatch(/it locks at 180\.0°/);
  }
  expect(card.clash).toMatchObject({ deepest: null, push: null, press: null });
  expect(card.bind.misfit).toBeNull();
  expect(card.book.out).toBeNull();
  expect(card.desirability).toBeNull();
  // Only the lock counts: 180 degrees, in units of ten.
  expect(card.violation).toBe(18);
  expect(card.works).toBe(false);
  // In words it breaks the one limit, and the others are not known.
  expect(verdict('tent', card)).toBe('tent does not work: it breaks 1 limit.');
});

test('what could not be built has the same limits, none of them computed, and breaks them by no known amount', () => {
  const card = tent(-3);
  expect(card.cannotBuild).not.toBeNull();
  expect(card.limits.map(({ name, unit }) => [name, unit])).toEqual(
    tent(60).limits.map(({ name, unit }) => [name, unit]),
  );
  for (const limit of card.limits) expect([limit.value, reasonOf(limit)]).toEqual([null, card.cannotBuild]);
  expect(card).toMatchObject({ violation: null, bind: { misfit: null }, book: { out: null } });
});

test('a figure may be asked to lie flat when open, or to stand up: it is judged by the same figure', () => {
  const asked = (flatWhenOpen: string) =>
    tent(60, `{ flatWhenOpen: ${flatWhenOpen} }`).limits.find(({ name }) => name === 'flat when open');
  const up = Math.sqrt(60 ** 2 - 40 ** 2);
  const flat = asked('yes');
  expect(flat).toMatchObject({ most: 0.3, met: false });
  expect(flat?.value).toBeCloseTo(up, 6);
  expect(asked('no')).toEqual({
    name: 'flat when open',
    value: flat?.value,
    least: 0.3,
    unit: 'mm',
    met: true,
  });
  expect(asked('any')).toBeUndefined();
});

test('JSON has no number that stands for none', () => {
  for (const width of [-3, 30, 60])
    expect(JSON.stringify(tent(width, '{ flatWhenOpen: no }'))).not.toMatch(/e\+?\d\d/i);
});
