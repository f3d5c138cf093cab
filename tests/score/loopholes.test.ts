import { describe, expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { patterns } from '../../src/figure/patterns/index.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { newCrossing } from '../../src/geometry/crossing.js';
import { warningsInWords } from '../../src/report/words/warning-words.js';
import { isAtNeck } from '../../src/score/clash/pairs.js';
import type { Scorecard } from '../../src/score/scorecard.js';
import { Scorer } from '../../src/score/scorer.js';
import { findWarnings } from '../../src/score/warnings.js';

const scored = (text: string, page = 'A5'): Scorecard => {
  const figure = compileFigure(parseFigure(`page: ${page}\n${text}`, 'figure.yaml'));
  return new Scorer(figure).score(figure.start);
};
const limit = (card: Scorecard, name: string) => card.limits.find((each) => each.name === name);

const posts = [60, 100]
  .map(
    (at, i) =>
      `  - { name: post ${i}, kind: v-fold, at: ${at}, glue: [90, 45], panels: [45, 90], feet: [60, 30], ridge: 40 }\n`,
  )
  .join('');
const plateOn = (line: string) =>
  `parts:\n${posts}  - { name: plate, kind: plate, supports: [{ panel: post 0 left, line: ${line} }, { panel: post 1 left, line: ${line} }] }`;

describe('a crease', () => {
  test('must lie on card: a plate hinged 12 mm beyond its posts does not work', () => {
    const air = scored(plateOn('[[50, 20], [58, 20]]'));
    expect(limit(air, 'creases on card')).toMatchObject({
      value: 0,
      met: false,
      finding: { kind: 'hinges on air', panels: ['post 0 left', 'plate'] },
    });
    expect(air.works).toBe(false);
    expect(limit(scored(plateOn('[[25, 24], [33, 24]]')), 'creases on card')).toMatchObject({
      value: 100,
      met: true,
    });
  });

  test('may miss card for a fifth of its length, or as the maker says', () => {
    // Of the post's edge from (28.3, 28.3) to (60, 0), at a height of 20 mm, 37.6 is the end.
    const line = '[[29.6, 20], [39.6, 20]]';
    const card = limit(scored(plateOn(line)), 'creases on card');
    expect(card?.value).toBeCloseTo(80, -0.5);
    expect(limit(scored(`${plateOn(line)}\nlimits: { creaseOnCard: 50 }`), 'creases on card')?.met).toBe(
      true,
    );
  });
});

test('two panels must hang together by more than a bit of ridge', () => {
  // Walls 60 mm long that meet in the last 8 mm of their ridge, and in all of it but what is cut out in the middle.
  const fold = (foot: string, more = '') =>
    limit(
      scored(`parts:
  - { name: v, kind: v-fold, at: 60, glue: [60, 60], panels: [64, 64], feet: [60, 60], ridge: 60, outlines: { left: ${foot}, right: { mirror: left } } }${more}`),
      'fold length',
    );
  expect(fold('[[0, 0], [60, 0], { on: ridge, at: end }, { on: ridge, at: 52 }, [30, 4]]')).toMatchObject({
    value: expect.closeTo(800 / 60, 0),
    met: false,
    finding: { kind: 'hangs by little', panels: ['v left', 'v right'] },
  });
  expect(fold('[[0, 0], [60, 0], { on: ridge, at: end }]')?.value).toBeCloseTo(100, 6);
  // What a counter-fold takes out of a ridge, it takes away; what is left on either side of it counts.
  const yoke =
    '\n  - { name: yoke, kind: counter-fold, on: v ridge, at: 20, diagonal: 35, side: 12, length: 15 }';
  expect(fold('[[0, 0], [60, 0], { on: ridge, at: end }]', yoke)?.value).toBeCloseTo(75, 6);
});

describe('glue', () => {
  const sail = (at: number, shape: string) =>
    `parts:\n  - { name: v, kind: v-fold, at: 60, glue: [60, 60], panels: [64, 64], feet: [30, 30], ridge: 40 }\n  - { name: sail, kind: glued-piece, on: v left, at: [${at}, 5], outline: { polygon: ${shape} } }`;
  test('of 20 mm² is too little, however long its sliver', () => {
    const card = scored(sail(10, '[[0, 0], [4, 0], [4, 5], [0, 5]]'));
    expect(limit(card, 'glue area')).toMatchObject({
      met: false,
      finding: { kind: 'holds too little', panels: ['sail', 'v left'] },
    });
    expect(limit(card, 'glue area')?.value).toBeCloseTo(20, 6);
    expect(limit(card, 'glue breadth')?.value).toBeCloseTo(4, 1);
    const sliver = scored(sail(10, '[[0, 0], [2, 0], [2, 15], [0, 15]]'));
    expect(limit(sliver, 'glue area')?.met).toBe(true);
    expect(limit(sliver, 'glue breadth')?.value).toBeCloseTo(2, 1);
    expect(limit(sliver, 'glue breadth')?.met).toBe(false);
  });
});

test('a large sail does not hang on a corner', () => {
  const sail = (at: number) =>
    limit(
      scored(`parts:
  - { name: v, kind: v-fold, at: 60, glue: [60, 60], panels: [90, 90], feet: [40, 40], ridge: 60 }
  - { name: sail, kind: glued-piece, on: v left, at: [0, ${at}], outline: [[0, 0], [30, 0], [40, 50], [0, 50]] }`),
      'glued share',
    );
  // 45 mm² and more are glued, as much as any place of glue must have.
  const corner = sail(51);
  expect(corner).toMatchObject({
    met: false,
    finding: { kind: 'holds too little', panels: ['sail', 'v left'] },
  });
  expect(corner?.value).toBeGreaterThan(1);
  expect(sail(20)?.met).toBe(true);
});

describe('card', () => {
  const arm = (polygon: string, holes = '[]') =>
    `parts:\n  - { name: v, kind: v-fold, at: 60, glue: [60, 60], panels: [64, 64], feet: [30, 30], ridge: 40 }\n  - { name: arm, kind: glued-piece, on: v left, at: [5, 5], outline: { polygon: ${polygon}, holes: ${holes} } }`;
  const breadth = (parts: string) => limit(scored(parts), 'card breadth');
  test('that hangs on a neck of 0.2 mm does not work', () => {
    const neck =
      '[[0, 0], [20, 0], [20, 4.9], [40, 4.9], [40, 20], [38, 20], [38, 5.1], [20, 5.1], [20, 10], [0, 10]]';
    expect(breadth(arm(neck))).toMatchObject({
      met: false,
      finding: { kind: 'is too narrow', panels: ['arm'] },
    });
    expect(breadth(arm(neck))?.value).toBeCloseTo(0.2, 6);
  });
  test('that is a straw all along does not work; a sharp tip does', () => {
    expect(breadth(arm('[[0, 0], [60, 0], [60, 1], [0, 1]]'))?.value).toBeCloseTo(1, 1);
    expect(breadth(arm('[[0, 0], [40, 0], [0, 12]]'))?.met).toBe(true);
    // A notch beside a tip leaves a snippet, not a neck.
    expect(breadth(arm('[[0, 0], [40, 0], [40, 1], [38, 3], [30, 20], [0, 20]]'))?.met).toBe(true);
  });
  test('that hangs by a corner does not work, and is no outline where it has none', () => {
    const hourglass = (waist: number) =>
      arm(`[[0, 0], [40, ${10 - waist / 2}], [80, 0], [80, 20], [40, ${10 + waist / 2}], [0, 20]]`);
    expect(breadth(hourglass(0.01))).toMatchObject({ value: expect.closeTo(0.01, 3), met: false });
    expect(breadth(hourglass(4))?.met).toBe(true);
    expect(() => scored(hourglass(0))).toThrow(/the outline meets itself/);
  });
  test('between a hole and an edge, or another hole, must hold', () => {
    const hole = '[[5, 1], [15, 1], [15, 9], [5, 9]]';
    const plain = '[[0, 0], [40, 0], [40, 20], [0, 20]]';
    expect(breadth(arm(plain, `[${hole}]`))?.value).toBeCloseTo(1, 6);
    expect(
      breadth(arm(plain, '[[[5, 4], [9, 4], [9, 9], [5, 9]], [[9.6, 4], [14, 4], [14, 9], [9.6, 9]]]'))
        ?.value,
    ).toBeCloseTo(0.6, 6);
  });
  test('that hangs on 0.2 mm of crease does not work', () => {
    const card = scored(
      'parts:\n  - { name: v, kind: v-fold, at: 60, glue: [60, 60], panels: [64, 64], feet: [30, 30], ridge: 40, start: 10 }\n  - { name: fork, kind: counter-fold, on: v ridge, at: 0.2, diagonal: 30, side: 8, length: 29.8 }',
    );
    expect(limit(card, 'card breadth')?.value).toBeCloseTo(0.2, 3);
    expect(card.works).toBe(false);
  });
});

describe('what holds a limb', () => {
  const leg = (hub: string, tongue = '') => `parts:
  - { name: box, kind: parallel-fold, shape: box, at: 60, length: 60, glue: [20, 20] }
  - { name: leg, kind: link, on: left page, from: [-60, 60], to: [-60, 110], width: 10 }
  - { name: hip, kind: pivot, between: [leg, left page], at: [0, 0], hole: 2.5${hub} }
  - { name: toe, kind: tongue, panel: leg, at: [48, 0], slit: { panel: left page, line: [[-64, 108], [-56, 108]] }${tongue} }`;
  const breadth = (text: string) => limit(scored(text), 'card breadth');

  test('must be card that holds: a hub by its waist and its shoulders, a tongue by what of it lies behind', () => {
    expect(breadth(leg(', waist: 2.1, shoulder: 5.5'))?.met).toBe(true);
    // Shoulders of 3.1 mm reach past a hole of 2.5 mm by 0.3 mm.
    expect(breadth(leg(', waist: 2.1, shoulder: 3.1'))).toMatchObject({
      value: expect.closeTo(0.3, 9),
      met: false,
      finding: { panels: ['leg'] },
    });
    expect(breadth(leg(', waist: 0.4, shoulder: 5.5'))?.value).toBeCloseTo(0.4, 9);
    // A neck must be card, on card, and what is behind the slit must reach past it.
    for (const [slight, value] of [
      ['waist: 0.8', 0.8],
      ['tail: 3.5', 0.8],
      ['breadth: 4.7', 1],
      ['waist: 9.9, width: 12, breadth: 20, tail: 20', 9.9],
      ['waist: 11, width: 12, breadth: 20, tail: 20', 10],
    ] as const) {
      const card = breadth(leg(', waist: 2.1, shoulder: 5.5', `, ${slight}`));
      if (value < 1.5)
        expect(card).toMatchObject({
          value: expect.closeTo(value, 9),
          met: false,
          finding: { panels: ['toe tail'] },
        });
      else expect(card?.met).toBe(true);
    }
    // A neck of 2 mm whose middle lies 0.2 mm from the edge of its leg hangs on 1.2 mm of it.
    const beside = leg(', waist: 2.1, shoulder: 5.5', ', waist: 2');
    expect(breadth(beside.replace('at: [48, 0]', 'at: [48, 4.8]'))?.value).toBeCloseTo(1.2, 1);
    const broad = scored(leg(', waist: 2.1, shoulder: 5.5', ', waist: 14, width: 15, breadth: 20, tail: 20'));
    expect(limit(broad, 'creases on card')).toMatchObject({
      value: expect.closeTo(1000 / 14, 6),
      met: false,
      finding: { kind: 'hinges on air', panels: ['leg', 'toe tail'] },
    });
  });

  test('turns in its slit by a neck no broader than the slit is wide, and is held by what is broader', () => {
    const refused = (tongue: string) => scored(leg(', waist: 2.1, shoulder: 5.5', `, ${tongue}`)).cannotBuild;
    // A strip of 6 mm in a slit of 2.7 mm, and one of 2.69 mm and 0.3 mm thick.
    expect(refused('waist: 6')).toMatch(
      /waist of 6.00 mm, 0.30 mm thick, does not turn in a slit of 2.70 mm/,
    );
    expect(refused('waist: 2.69')).toMatch(/does not turn/);
    expect(refused('waist: 2.67')).toBeNull();
    expect(refused('breadth: 2.4')).toMatch(/slips out of a slit of 2.70 mm/);
    expect(refused('tail: 2.4')).toMatch(/ends in its neck/);
  });
});

test('a limb that stands in a slit may cross its card beside the slit, and nowhere else', () => {
  const leg = patterns.find(({ name }) => name === 'limb-on-hubs')?.text ?? '';
  // Glued on the shin, 28 mm long, which comes down to the page at a slant: past the toe it would go on under the page.
  const clash = (from: number, to: number) => {
    const flag = `  - { name: flag, kind: glued-piece, on: shin, at: [0, 0], outline: [[${from}, -8], [${to}, -8], [${to}, 8], [${from}, 8]] }`;
    const figure = compileFigure(parseFigure(leg.replace('\nwants:', `${flag}\n\nwants:`), 'leg.yaml'));
    return new Scorer(figure).score(figure.start).clash;
  };
  expect(clash(10, 22).deepest).toBe(0);
  const under = clash(12, 58);
  expect(under.deepest).toBeGreaterThan(2);
  expect(new Set(under.between)).toEqual(new Set(['flag', 'left page']));
});

test('how near a neck two panels cross is seen on the link, whichever of the two that is', () => {
  const pair = { necks: [{ panel: 7, x: 40, y: 0, around: 6 }] };
  const crossing = (x: number, y: number) => ({ ...newCrossing(), ax: x, ay: y, bx: x, by: y });
  for (const [a, b] of [
    [7, 2],
    [2, 7],
  ]) {
    expect(isAtNeck(pair, a, b, crossing(45, 3))).toBe(true);
    expect(isAtNeck(pair, a, b, crossing(46, 3))).toBe(false);
  }
  expect(isAtNeck(pair, 2, 3, crossing(40, 0))).toBe(false);
});

test('a sail that is tilted on its hub may not be levered through the card behind it', () => {
  // Its toe is led to a lining within the hull, so that it tilts by 16° on its hub in the hull.
  const sail = (past: number) =>
    scored(
      `places: { boom: { on: hull left, at: [88, 52] }, toe: { on: lining left, at: [28, 5] }, peak: { from: boom, turn: 38, far: ${past} } }
parts:
  - { name: hull, kind: parallel-fold, at: 30, length: 110, glue: [64, 50], widths: 70 }
  - { name: lining, kind: parallel-fold, at: 30, length: 110, glue: [44.8, 35], widths: 49 }
  - { name: sail, kind: link, on: hull left, from: toe, to: boom, width: 8, outline: { around: [toe, boom, peak], margin: 4 } }
  - { name: boom hub, kind: pivot, between: [hull left, sail], at: boom }
  - { name: toe, kind: tongue, panel: sail, at: toe, slit: { panel: lining left, line: [{ from: toe, turn: 180, far: 10 }, { from: toe, turn: 0, far: 30 }] } }`,
      '{ width: 180, height: 180 }',
    );
  const short = sail(1);
  expect(limit(short, 'tilt')?.value).toBeCloseTo(15.7, 0);
  expect(short.clash.between).not.toEqual(['hull left', 'sail']);
  // 26 mm past the hub come out by 26 mm sin 16°, 7 mm; the other joints of its chain may take half of that, not more.
  const long = sail(26);
  expect(limit(long, 'tilt')?.value).toBeCloseTo(15.7, 0);
  expect(long.clash.between).toEqual(['hull left', 'sail']);
});

test('two hubs in one panel need card between their holes', () => {
  const hubs = (apart: number) =>
    limit(
      scored(`parts:
  - { name: box, kind: parallel-fold, shape: box, at: 60, length: 60, glue: [20, 20] }
  - { name: leg, kind: link, on: left page, from: [-60, 60], to: [-60, 110], width: 12 }
  - { name: hip, kind: pivot, between: [leg, left page], at: [0, 0], hole: 2.5, waist: 2.1, shoulder: 5.5 }
  - { name: pin, kind: pivot, between: [leg, left page], at: [${apart}, 0], hole: 2.5, waist: 2.1, shoulder: 5.5 }`),
      'card breadth',
    );
  expect(hubs(3.2)).toMatchObject({ value: expect.closeTo(0.7, 9), met: false });
  expect(hubs(1)?.value).toBe(0);
  expect(hubs(12)?.met).toBe(true);
});

describe('a slot is a requirement', () => {
  // A swinging arm, and a board on the right page that it is to pass through.
  const arm = (at: string) =>
    `parts:
  - { name: v, kind: v-fold, at: 60, glue: [60, 60], panels: [64, 64], feet: [40, 40], ridge: 50 }
  - { name: board, kind: parallel-fold, at: 70, length: 80, glue: [30, 30], widths: [60, 60] }
  - { name: slot, kind: slot, on: board left, outline: ${at}, passes: v left }
`;
  test('beside it is not through it', () => {
    const card = scored(arm('[[60, 10], [75, 10], [75, 25], [60, 25]]'));
    expect(limit(card, 'slot')?.met).toBe(false);
    expect(['runs past a slot', 'does not pass']).toContain(limit(card, 'slot')?.finding?.kind);
    expect(card.works).toBe(false);
  });

  test('and its room may be wanted', () => {
    const sleeve = patterns.find(({ name }) => name === 'arm-through-slot')?.text ?? '';
    const wide = '  - { name: it has room, kind: through, slot: sleeve, least: 1.2 }';
    const figure = compileFigure(
      parseFigure(sleeve.replace('\nwants:\n', `\nwants:\n${wide}\n`), 'sleeve.yaml'),
    );
    const { slots, wants } = new Scorer(figure).score(figure.start);
    expect(slots[0].room).toBeGreaterThan(0.5);
    expect(wants[0].value).toBe(slots[0].room);
    expect(wants[0].met).toBe(slots[0].room >= 1.2);
  });
});

describe('how panels turn', () => {
  const figure = (wants: string) =>
    scored(`parts:
  - { name: man, kind: v-fold, at: 60, glue: [60, 60], panels: [80, 80], feet: [40, 40], ridge: 70 }
  - { name: yoke, kind: counter-fold, on: man ridge, at: 30, diagonal: 35, side: 12, length: 25 }
  - { name: left arm, kind: glued-piece, on: yoke left, at: [3, 1], turn: 15, outline: { polygon: [[0, 0], [50, 0], [50, 5], [0, 5]] } }
  - { name: right arm, kind: glued-piece, on: yoke right, at: [3, 1], turn: 15, outline: { polygon: [[0, 0], [50, 0], [50, 5], [0, 5]] } }
wants: [${wants}]`).wants[0];

  test('arms against each other are seen from what both hang on, by their longest direction', () => {
    const given = figure('{ name: w, kind: against, panels: [left arm, right arm], least: 1 }');
    expect(given.value).not.toBeNull();
    expect(Math.abs(given.value ?? 0)).toBeGreaterThan(1);
    for (const panels of ['[right arm, left arm]', '[left arm, right arm]'])
      expect(figure(`{ name: w, kind: against, panels: ${panels}, least: 1 }`).value).toBeCloseTo(
        given.value ?? 0,
        9,
      );
  });

  test('a turn may go either way', () => {
    const signed = figure('{ name: w, kind: turn, panel: left arm, line: 0, least: 1 }').value ?? 0;
    const other =
      figure('{ name: w, kind: turn, panel: left arm, line: 0, least: 1, either: yes }').value ?? 0;
    expect(other).toBeCloseTo(Math.abs(signed), 9);
    expect(other).toBeGreaterThan(1);
  });
});

describe('how high a panel stands', () => {
  // A sail on the wall of a box, 60 mm broad and 30 mm high, with a tower in its middle.
  const wall = (tower: number, wide: number, more = '') => {
    const [low, high] = [30 - wide / 2, 30 + wide / 2];
    return (
      scored(`parts:
  - { name: box, kind: parallel-fold, shape: box, at: 60, length: 60, glue: [100, 40] }
  - { name: sail, kind: glued-piece, on: box left, at: [0, 0], outline: [[0, 5], [60, 5], [60, 30], [${high}, 30], [${high}, ${30 + tower}], [${low}, ${30 + tower}], [${low}, 30], [0, 30]] }
wants: [{ name: top, kind: rise, panel: sail, from: 100, to: 80, least: 1${more} }]`).wants[0].value ?? 0
    );
  };

  test('is the height of its highest line of 5 mm, not of a spike', () => {
    expect(wall(0.01, 10)).toBeCloseTo(30, 1);
    expect(wall(60, 1.5)).toBeCloseTo(30, 1);
    expect(wall(60, 5)).toBeCloseTo(90, 6);
    expect(wall(60, 20)).toBeCloseTo(90, 6);
    // Who means the tip, says so.
    expect(wall(60, 1.5, ', point: [30, 90]')).toBeCloseTo(90, 6);
  });

  test('of a gable is where that is 5 mm broad', () => {
    // 60 mm broad at 5 mm, nothing at 35 mm.
    const gable = scored(`parts:
  - { name: box, kind: parallel-fold, shape: box, at: 60, length: 60, glue: [100, 40] }
  - { name: gable, kind: glued-piece, on: box left, at: [0, 0], outline: [[0, 5], [60, 5], [30, 35]] }
wants: [{ name: top, kind: rise, panel: gable, from: 100, to: 80, least: 1 }]`);
    expect(gable.wants[0].value).toBeCloseTo(32.5, 6);
  });

  test('is the same in its mirror image, also where it leans from the one page to the other', () => {
    const sail = (glue: string, panels: string, on: string) =>
      scored(`parts:
  - { name: v, kind: v-fold, at: 60, glue: ${glue}, panels: ${panels}, feet: [40, 40], ridge: 60 }
  - { name: sail, kind: glued-piece, on: v ${on}, at: [0, 0], outline: [[5, 10], [30, 10], [30, 40], [-25, 55], [-25, 50], [5, 40]] }
wants: [{ name: top, kind: rise, panel: sail, from: 120, to: 60, least: 1 }]`).wants[0].value;
    expect(sail('[50, 70]', '[80, 60]', 'left')).toBeCloseTo(sail('[70, 50]', '[60, 80]', 'right') ?? 0, 9);
  });

  test('grows without a leap as the tower grows broad', () => {
    let before = wall(60, 2);
    for (let wide = 2.1; wide < 5.5; wide += 0.1) {
      const now = wall(60, wide);
      expect(now).toBeGreaterThanOrEqual(before - 1e-9);
      expect(now - before).toBeLessThan(3.1);
      before = now;
    }
    expect(before).toBeCloseTo(90, 6);
  });

  test('of a V-fold over the gutter grows evenly with its ridge, which is as near to the one page as to the other', () => {
    const hill = (ridge: number) =>
      scored(`parts:
  - { name: hill, kind: v-fold, at: 150, glue: 56, panels: 68, feet: 60, ridge: ${ridge} }
wants: [{ name: top, kind: rise, panel: hill left, least: 1 }]`).wants[0].value ?? 0;
    const heights = [58.8, 58.9, 59, 59.1, 59.2, 59.3, 59.4].map(hill);
    for (const [k, height] of heights.slice(1).entries()) expect(height - heights[k]).toBeCloseTo(0.085, 2);
  });

  test('is that of the whole of a pole that is narrow all along', () => {
    const pole = scored(`parts:
  - { name: box, kind: parallel-fold, shape: box, at: 60, length: 60, glue: [100, 40] }
  - { name: pole, kind: glued-piece, on: box left, at: [10, 0], outline: [[0, 2], [3, 2], [3, 70], [0, 70]] }
wants: [{ name: top, kind: rise, panel: pole, from: 100, to: 80, least: 1 }]`);
    expect(pole.wants[0].value).toBeCloseTo(70, 6);
  });
});

describe('what is wanted of a point', () => {
  const arm = (long: number, more = '') =>
    scored(`parts:
  - { name: man, kind: v-fold, at: 60, glue: [60, 60], panels: [64, 64], feet: [40, 40], ridge: 50 }
  - { name: arm, kind: glued-piece, on: man left, at: [5, 5], outline: { polygon: [[0, 0], [${long}, 0], [${long}, 6], [0, 6]] } }${more}
wants: [{ name: hand, kind: travel, panel: arm, point: [40, 3], least: 1 }]`).wants[0];

  test('is nothing where there is no card: an arm that ends short of its hand waves no hand', () => {
    expect(arm(40).value).toBeGreaterThan(1);
    expect(arm(30)).toMatchObject({
      value: null,
      met: false,
      unknown: { because: 'its point lies off the card' },
    });
  });

  test('is worth less the farther the arm ends short of the hand, and is not met', () => {
    expect(arm(39.51).met).toBe(true);
    const worth = (long: number) => arm(long).desirability ?? 0;
    expect(arm(39.4)).toMatchObject({
      met: false,
      finding: { kind: 'marks no card', panels: ['arm'], value: expect.closeTo(0.6, 9), unit: 'mm' },
    });
    expect(worth(39.4)).toBeCloseTo(worth(40) * (1 - 0.1 / 5), 6);
    expect(worth(37)).toBeCloseTo(worth(40) / 2, 6);
    expect(worth(34.6)).toBeLessThan(0.03);
  });

  test('may be on card that is glued to its panel', () => {
    const hand =
      '\n  - { name: hand, kind: glued-piece, on: arm, at: [20, 0], outline: { polygon: [[0, 0], [25, 0], [25, 6], [0, 6]] } }';
    expect(arm(30, hand).value).toBeCloseTo(arm(40).value ?? 0, 9);
  });
});

test('a figure that locks at once is farther from working than one that moves and catches', () => {
  // Sides that do not reach across their feet: nothing moves, and nothing else is known.
  const stuck = scored(
    'parts: [{ name: tent, kind: parallel-fold, at: 40, length: 60, glue: [40, 40], widths: [20, 20] }]',
  );
  const catches = scored(`parts:
  - { name: low, kind: parallel-fold, shape: box, at: 40, length: 60, glue: [30, 30] }
  - { name: man, kind: v-fold, at: 60, glue: [60, 60], panels: [70, 70], feet: [40, 40], ridge: 60 }`);
  expect(catches.clash.deepest).toBeGreaterThan(5);
  expect(stuck.violation).toBeGreaterThan(2 * (catches.violation ?? Infinity));
  // Of a figure that asks for nothing, too, nothing computed is no worth.
  expect(stuck.desirability).toBeNull();
});

test('the sides of a box that points out meet over unequal feet', () => {
  const card = scored(
    'parts: [{ name: box, kind: parallel-fold, shape: box, at: 60, length: 60, glue: [30, 20], points: out }]',
  );
  expect(card.locks).toBeNull();
  expect(limit(card, 'shuts')?.met).toBe(true);
  expect(limit(card, 'give')?.value).toBeCloseTo(0, 6);
});

describe('card that is glued on card', () => {
  const on = (pieces: string) =>
    limit(
      scored(
        `parts:\n  - { name: v, kind: v-fold, at: 60, glue: [60, 60], panels: [64, 64], feet: [40, 40], ridge: 50 }\n${pieces}`,
      ),
      'card breadth',
    );
  const piece = (name: string, under: string, at: string, polygon: string) =>
    `  - { name: ${name}, kind: glued-piece, on: ${under}, at: ${at}, outline: { polygon: ${polygon} } }\n`;
  const straw = '[[0, 0], [25, 0], [25, 1], [0, 1]]';

  test('is as broad as both together: a stripe of 1 mm on a panel does not tear', () => {
    expect(on(piece('stripe', 'v left', '[8, 8]', straw))?.met).toBe(true);
    // Where it sticks out, it does.
    expect(on(piece('whisker', 'v left', '[20, 8]', '[[0, 0], [40, 0], [40, 1], [0, 1]]'))?.met).toBe(false);
  });

  test('strengthens a neck that it lies over, and no other one', () => {
    // An arm with a waist of 1 mm at 12, and of 1.2 mm at 32.
    const arm = (second: number) =>
      `[[0, 0], [20, 0], [20, 4], [22, 4], [22, 0], [40, 0], [40, ${4 - second / 2}], [42, ${4 - second / 2}], [42, 0], [55, 0], [55, 8], [42, 8], [42, ${4 + second / 2}], [40, ${4 + second / 2}], [40, 8], [22, 8], [22, 5], [20, 5], [20, 8], [0, 8]]`;
    const patch = '[[0, 0], [16, 0], [16, 8], [0, 8]]';
    const bare = piece('arm', 'v left', '[22, 5]', arm(4));
    expect(on(bare)?.value).toBeCloseTo(1, 6);
    expect(on(`${bare}${piece('patch', 'arm', '[13, 0]', patch)}`)?.value).toBeGreaterThan(3);
    const weak = piece('arm', 'v left', '[22, 5]', arm(1.2));
    expect(on(`${weak}${piece('patch', 'arm', '[13, 0]', patch)}`)?.value).toBeCloseTo(1.2, 6);
  });
});

test('card under 2 mm, and card that is woven when shut, is worth a look but no failure', () => {
  const figure = compileFigure(
    parseFigure(
      `page: A5
parts:
  - { name: v, kind: v-fold, at: 60, glue: [60, 60], panels: [64, 64], feet: [40, 40], ridge: 50 }
  - { name: whisker, kind: glued-piece, on: v left, at: [12, 6], outline: { polygon: [[0, 0], [20, 0], [20, 4], [40, 4], [40, 5.8], [20, 5.8], [20, 10], [0, 10]] } }
`,
      'figure.yaml',
    ),
  );
  const warnings = findWarnings(figure, figure.start);
  expect(warnings).toMatchObject([{ kind: 'narrow', panels: ['whisker'] }]);
  expect(warningsInWords(warnings).join('\n')).toMatch(/Worth a look\n.*1\.80 mm of card.*tears easily/);
  expect(limit(new Scorer(figure).score(figure.start), 'card breadth')?.met).toBe(true);
  expect(warningsInWords([{ kind: 'woven', panels: ['a', 'b', 'c'] }]).join()).toMatch(/one by one/);
});

test('a want for a turn of what swings out of the plane, and a dim that nothing uses, are worth a look', () => {
  const figure = compileFigure(
    parseFigure(
      `page: A5
dims: { far: { from: 20, to: 40 }, side: far + idle, idle: 4, spare: { from: 1, to: 3 }, twice: 2 * spare, way: { choose: [in, out] } }
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: far, widths: side }
wants:
  - { name: side opens, kind: turn, panel: tent left, line: 0, reference: left page, least: 40 }
  - { name: it swings, kind: swing, panel: tent left, least: 40 }
  - { name: page turns, kind: turn, panel: right page, reference: right page, least: 40 }
`,
      'figure.yaml',
    ),
  );
  const warnings = findWarnings(figure, figure.start);
  expect(warnings).toMatchObject([
    { kind: 'unused', dims: ['spare', 'twice', 'way'] },
    { kind: 'swings', want: 'side opens', panel: 'tent left', reference: 'left page' },
  ]);
  const words = warningsInWords(warnings).join('\n');
  expect(words).toMatch(/unused +spare, twice, way/);
  expect(words).toMatch(
    /no turn +side opens +'tent left' swings by 1\d\d\.\d° out of the plane of 'left page'/,
  );
});
