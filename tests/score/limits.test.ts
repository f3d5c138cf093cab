import { expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { limbOnHubs } from '../../src/figure/patterns/limb-on-hubs.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { reasonOf } from '../../src/report/words/finding-words.js';
import { verdict } from '../../src/report/words/scorecard-words.js';
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
  // Only the lock counts: 180 degrees.
  expect(card.violation).toBe(180);
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

/** A tent as above of two widths, and how far it breaks its limits. */
function broken(widths: string, more = ''): Scorecard {
  const figure = compileFigure(
    parseFigure(
      `page: A5
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [40, 40], widths: [${widths}] }
${more}
`,
      'tent.yaml',
    ),
  );
  return new Scorer(figure).score(figure.start);
}

test('a millimetre that sticks out too far breaks the limit by one unit', () => {
  // Foot and side together are 108 mm, and then 155 mm, of a page of 148 mm.
  expect(broken('68, 68').violation).toBe(0);
  const card = broken('115, 115', 'limits: { overhang: 3 }');
  expect(card.limits.find(({ name }) => name === 'overhang')).toMatchObject({
    value: expect.closeTo(40 + 115 - 148, 6),
    met: false,
  });
  expect(card.violation).toBeCloseTo(40 + 115 - 148 - 3, 6);
});

test('a hub that tilts by 10° too much breaks the limit by one unit', () => {
  const text = limbOnHubs.text.replace('limits:', 'limits:\n  tilt: 1');
  const figure = compileFigure(parseFigure(text, 'limb.yaml'));
  const { limits, violation } = new Scorer(figure).score(figure.start);
  const tilt = limits.find(({ name }) => name === 'tilt')?.value ?? 0;
  expect(tilt).toBeGreaterThan(3);
  expect(violation).toBeCloseTo((tilt - 1) / 10, 9);
});

test('a figure that locks a hair before it is shut is broken by a tenth of a unit at least', () => {
  // Sides that differ by hardly more than card can give lock within a degree, which would be less.
  const card = broken(
    '63.01, 60',
    'card: { thickness: 0.02 }\nlimits: { force: 10000, strain: 100, press: 9, outside: 9 }',
  );
  expect(card.locks?.pageAngle).toBeGreaterThan(0);
  expect(card.locks?.pageAngle).toBeLessThan(0.9);
  expect(card.violation).toBe(Math.max(0.1, card.locks?.pageAngle ?? 0));
});

test('what misses its bound by less than a tenth of a millimetre misses it', () => {
  const limits = 'limits: { overhang: 6.95 }';
  expect(broken('115, 115', limits)).toMatchObject({ works: false, violation: expect.closeTo(0.05, 6) });
});

test('glue that does not lie on card counts by the square centimetre in ten', () => {
  // A strip of 10 × 10 mm wholly beside the panel that it is glued to: 100 mm², of which 25 may be.
  const strip =
    '  - { name: strip, kind: glued-piece, on: tent left, at: [80, 5], outline: { polygon: [[0, 0], [10, 0], [10, 10], [0, 10]] } }';
  const card = broken('60, 60', `${strip}\nlimits: { glueArea: 0, glueBreadth: 0, glueShare: 0 }`);
  expect(card.limits.find(({ name }) => name === 'stray glue')).toMatchObject({
    value: expect.closeTo(100, 6),
  });
  expect(card.violation).toBeCloseTo((100 - 25) / 10, 6);
});

test('card that comes into a space to be kept clear, or out from under the pages, counts by the millimetre', () => {
  // The ridge stands at t sin(φ/2) over the left page, with t = 40 cos(φ/2) + √(60² − 40² sin²(φ/2)) from the gutter. A space
  // that begins at 43 mm and reaches 900 mm to the right has room while the right page is down by less than atan(43/900) =
  // 2.7°: in the frames at 180° and 178°.
  const half = (89 * Math.PI) / 180;
  const ridge = Math.sin(half) * (40 * Math.cos(half) + Math.sqrt(60 ** 2 - (40 * Math.sin(half)) ** 2));
  const space = 'keepClear: [{ name: shelf, from: [-30, 20, 43], to: [900, 190, 90] }]';
  const entered = broken('60, 60', space);
  expect(entered.limits.find(({ name }) => name === 'keep clear')).toMatchObject({
    most: 0,
    value: expect.closeTo(ridge - 43, 6),
    met: false,
  });
  expect(entered.violation).toBeCloseTo(ridge - 43, 6);
  // Below 30° the pages must cover it: it reaches 40 cos(φ/2) + √(115² − 40² sin²(φ/2)) from the gutter, most when shut.
  const covered = (widths: string) =>
    broken(widths, 'limits: { coveredBelow: 30, overhang: 3, give: 0 }').limits.find(
      ({ name }) => name === 'covered',
    );
  expect(covered('115, 115')).toMatchObject({ value: expect.closeTo(7, 5), met: false });
  // One that locks at 14.4° is told down to there only if the pages must cover it above that: not at all.
  expect(covered('60, 50')).toMatchObject({ value: 0, met: true });
  const late = broken('80, 45', 'limits: { coveredBelow: 30, give: 0 }');
  expect(late.locks?.pageAngle).toBeGreaterThan(45);
  expect(late.limits.find(({ name }) => name === 'covered')).toMatchObject({ value: null, met: false });
});

test('card that stands 0.3 mm off the open pages still lies flat', () => {
  // A ridge of √(w² − 40²): 0.29 mm at w = 40.00105, 0.31 mm at w = 40.0012.
  const flat = (width: number) =>
    broken(`${width}, ${width}`, 'limits: { flatWhenOpen: yes }').limits.find(
      ({ name }) => name === 'flat when open',
    );
  expect(flat(40.00105)).toMatchObject({ met: true });
  expect(flat(40.0012)).toMatchObject({ met: false });
});

test('a limit holds that is met but for the rounding of numbers', () => {
  const pile = (limits?: string) => tent(60, limits).limits.find(({ name }) => name === 'pile');
  const high = pile()?.value ?? 0;
  expect(pile(`{ pile: ${high - 1e-10} }`)?.met).toBe(true);
  expect(pile(`{ pile: ${high - 1e-6} }`)?.met).toBe(false);
});

test('a dummy cut by hand is judged by what its card gives way, and its room is reckoned to there', () => {
  const figure = compileFigure(
    parseFigure(
      'page: A5\nparts:\n  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: 40, widths: 60 }\n',
      'tent.yaml',
    ),
  );
  const scorer = new Scorer(figure);
  const template = figure.template(figure.start);
  const cut = scorer.scoreCut(template, new Float64Array(template.cuts.length), figure.start);
  const bounds = ({ limits }: Scorecard, name: string) => {
    const { most, least } = limits.find((limit) => limit.name === name) ?? {};
    return [most, least];
  };
  // Pages press flat what leans on them by 2 mm more; what holds is asked of the drawing alone.
  expect([bounds(scorer.score(figure.start), 'outside'), bounds(cut, 'outside')]).toEqual([
    [1, undefined],
    [3, undefined],
  ]);
  expect(bounds(cut, 'residue')).toEqual([2.3, undefined]);
  expect(bounds(cut, 'force')).toEqual([15, undefined]);
  expect(bounds(scorer.score(figure.start), 'glue area')).toEqual([undefined, 25]);
  expect(bounds(cut, 'glue area')).toEqual([undefined, undefined]);
  expect(cut.works).toBe(true);
});
