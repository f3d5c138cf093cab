import { expect, test } from 'vitest';
import { decimal, share, withUnit } from '../../../src/report/words/numbers.js';
import { faults, goalInWords, scorecardInWords } from '../../../src/report/words/scorecard-words.js';
import type { Scorecard } from '../../../src/score/scorecard.js';
import { counted } from '../../../src/text/phrases.js';
import { fakeCard } from '../../study/fake.js';

const goal = { name: 'swing', kind: 'travel', unit: 'mm', weight: 1, from: 180, to: 0 } as const;

test('numbers are shown to what can be cut, with a true minus and no minus zero', () => {
  expect(withUnit(12.345, 'degrees')).toBe('12.3°');
  expect(withUnit(-12.345, 'mm')).toBe('−12.35 mm');
  expect(decimal(-0.001, 2)).toBe('0.00');
  expect(withUnit(3, '')).toBe('3.00');
});

test('counts and shares are never rounded to none or all', () => {
  expect([counted(1, 'limit'), counted(2000, 'limit'), counted(0, 'dummy', 'dummies')]).toEqual([
    '1 limit',
    '2,000 limits',
    '0 dummies',
  ]);
  expect([share(0, 7), share(7, 7), share(1, 100_000), share(99_999, 100_000), share(1, 3)]).toEqual([
    '0 %',
    '100 %',
    'under 0.1 %',
    'over 99.9 %',
    '33 %',
  ]);
});

test('goals in words', () => {
  expect(goalInWords({ ...goal, least: 10 })).toBe('at least 10.00 mm');
  expect(goalInWords({ ...goal, most: 10 })).toBe('at most 10.00 mm');
  expect(goalInWords({ ...goal, least: 10, most: 12 })).toBe('10.00 mm to 12.00 mm');
  expect(goalInWords({ ...goal, target: 30, tolerance: 5, unit: 'degrees' })).toBe(
    '30.0°, give or take 5.0°',
  );
});

test('a candidate that works', () => {
  const text = scorecardInWords('sailor', fakeCard(Float64Array.of(60, 30, 0)), [
    { ...goal, least: 10 },
  ]).join('\n');
  expect(text).toContain('sailor works');
  expect(text).toMatch(/met +swing +30\.00 mm, wanted: at least 10\.00 mm/);
  expect(text).toMatch(/holds +overhang +0\.00 mm, at most 0\.00 mm/);
});

test('a candidate that breaks a limit and misses a want names both, with what was wanted', () => {
  const card = fakeCard(Float64Array.of(90, 30, 0));
  const missed: Scorecard = {
    ...card,
    wants: card.wants.map((want) => ({ ...want, met: want.name !== 'swing' })),
  };
  expect(faults(missed, [{ ...goal, least: 50 }])).toEqual([
    'overhang: 10.00 mm, at most 0.00 mm',
    'swing: 45.00 mm, wanted: at least 50.00 mm',
  ]);
  expect(scorecardInWords('sailor', missed, [])[0]).toBe(
    'sailor does not work: it breaks 1 limit and misses 1 want.',
  );
});

test('a desirability of nothing names the limit that is broken twice over, or the want that is worth nothing', () => {
  const card = fakeCard(Float64Array.of(60, 30, 0));
  const thick: Scorecard = {
    ...card,
    desirability: 0,
    limits: card.limits.map((limit) => (limit.name === 'pile' ? { ...limit, value: 6, met: false } : limit)),
  };
  expect(scorecardInWords('sailor', thick, [])[1]).toBe(
    "Desirability 0.000, of at most 1: 'pile' is worth nothing.",
  );
  expect(scorecardInWords('sailor', card, [])[1]).toMatch(/^Desirability 0\.\d{3}, of at most 1\.$/);
});

test('what can not be built shows no figures, only the reason', () => {
  expect(scorecardInWords('sailor', fakeCard(Float64Array.of(60, 55, 0)), [])).toEqual([
    'sailor cannot be built: the mast leans past the gutter.',
  ]);
});

test('a catch, a bind, a lock, what leaves the book and what runs past its slot are each placed', () => {
  const text = scorecardInWords(
    'sailor',
    {
      ...fakeCard(Float64Array.of(60, 30, 0)),
      clash: {
        deepest: 3.2,
        push: 1,
        pageAngle: 34,
        between: ['oar', 'boat'],
        points: [
          [1, 2],
          [3, 4],
        ],
        firstPageAngle: 41,
        press: 0,
      },
      bind: {
        misfit: 0.7,
        pageAngle: 90,
        firstPageAngle: 120,
        at: { part: 'nest', joint: 'support', panels: ['nest', 'far post'] },
      },
      locks: {
        pageAngle: 12.3,
        part: 'mast',
        at: { part: 'mast', joint: 'ridge', panels: ['mast left', 'mast right'] },
      },
      book: { out: 2, pageAngle: 20, part: 'flag' },
      slots: [
        { slot: 'slot', crosses: true, passing: 'arm', panel: 'deck', room: -0.4, pageAngle: 55, at: [0, 0] },
      ],
    },
    [],
  ).join('\n');
  expect(text).toMatch(
    /catch +oar and boat +3\.20 mm deep at page angle 34\.0°; closing, it starts at 41\.0°/,
  );
  expect(text).toMatch(/boat +at \(3\.0, 4\.0\) mm/);
  expect(text).toMatch(/misfit +'nest' and its support 'far post' +0\.70 mm at page angle 90\.0°/);
  expect(text).toMatch(/lock +mast +the two sides of its ridge, at page angle 12\.3°/);
  expect(text).toMatch(/out +flag +2\.00 mm outside the pages/);
  expect(text).toMatch(/slot +arm in deck +0\.40 mm past its edge/);
});

test('glue that breaks its limit is told place by place, and beyond eight only counted', () => {
  const card = fakeCard(Float64Array.of(60, 30, 0));
  const glue = (glued: string, area: number) =>
    ({ glued, receiver: 'deck', kind: 'card between', other: 'plank', area }) as const;
  const limits = [{ name: 'stray glue', value: 90, most: 25, unit: 'mm²', met: false }];
  const told = (faults: Scorecard['glue']) =>
    scorecardInWords('sailor', { ...card, limits, glue: faults }, []).join('\n');
  const text = told([glue('mast tab', 90), glue('flag', 26), glue('oar', 25)]);
  expect(text).toMatch(
    /glue +mast tab +'plank' lies between 'mast tab' and 'deck', where they are glued together: 90\.00 mm²/,
  );
  expect(text).toMatch(/glue +flag +'plank' lies between/);
  expect(text).not.toContain('oar');
  const many = told(Array.from({ length: 11 }, (_, i) => glue(`tab ${i}`, 90)));
  expect(many).toContain('tab 7');
  expect(many).not.toContain('tab 8');
  expect(many).toContain('and 3 faults of glue more');
});
