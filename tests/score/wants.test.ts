import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { POSE, writePose } from '../../src/motion/pose.js';
import type { WantScore } from '../../src/score/scorecard.js';
import { Scorer } from '../../src/score/scorer.js';
import { assemble, wantOf } from '../support/assemble.js';

const RADIANS = Math.PI / 180;
const sin = (degrees: number) => Math.sin(degrees * RADIANS);
const cos = (degrees: number) => Math.cos(degrees * RADIANS);

/**
 * Three strips glued flat on the pages, and a box over the gutter whose feet are 30 mm (left) and 20 mm (right) away: as
 * wide as the opposite foot is far, its left wall (20 mm) stays parallel to the right page and its right wall (30 mm) to
 * the left one.
 */
function wanted(want: string): WantScore {
  const source = parseFigure(
    `page: A5
parts:
  - { name: oar, kind: glued-piece, on: right page, at: [60, 20], turn: 20, outline: { polygon: [[0, 0], [12, 0], [12, 3], [0, 3]] } }
  - { name: rudder, kind: glued-piece, on: right page, at: [90, 20], turn: 130, outline: { polygon: [[0, 0], [12, 0], [12, 3], [0, 3]] } }
  - { name: raft, kind: glued-piece, on: left page, at: [-90, 20], turn: 25, outline: { polygon: [[0, 0], [12, 0], [12, 3], [0, 3]] } }
  - { name: box, kind: parallel-fold, shape: box, at: 100, length: 40, glue: [30, 20] }
wants:
  - { name: it, ${want} }
limits: {}
`,
    'boat.yaml',
  );
  const figure = compileFigure(source);
  return new Scorer(figure).score(figure.start).wants[0];
}

/**
 * Heading, in the plane of one page, of a line on the other page at this heading in the open book: the other page's
 * outward direction is (−cos φ, 0, sin φ) and its y is y, so the line runs along (−cos φ cos h, sin h) there.
 */
const heading = (h: number, pageAngle: number) => Math.atan2(sin(h), -cos(pageAngle) * cos(h)) / RADIANS;
const turned = (h: number, from: number, to: number) => heading(h, to) - heading(h, from);

describe('turn', () => {
  it.each([
    // Shut, the right page lies turned over on the left one: 30° has become 180° − 30°.
    ['a line of a strip', 'panel: oar, line: 10, target: 120, tolerance: 1', 120],
    ['its own upright, where no line is given', 'panel: oar, least: 0', 180 - 110 - 110],
    ['a line through two points', 'panel: oar, line: [[1, 2], [6, 7]], least: 0', 180 - 65 - 65],
    ['between two page angles', 'panel: oar, line: 10, from: 120, to: 60, least: 0', turned(30, 120, 60)],
    ['and back', 'panel: oar, line: 10, from: 60, to: 120, least: 0', turned(30, 60, 120)],
    ['half of the way', 'panel: oar, line: 10, to: 90, least: 0', 60],
    // The left page seen from the right one turns as the right one does seen from the left.
    ['seen from the right page', 'panel: raft, line: 5, reference: right page, least: 0', 120],
    ['seen from the page that it lies on', 'panel: oar, line: 10, reference: right page, least: 0', 0],
    ['seen from a strip that lies askew', 'panel: oar, line: 10, reference: raft, least: 0', 120],
    // The foot of a wall runs along the gutter: a line at 30° to it has heading 60° and turns to 180° − 60°.
    ['of a wall parallel to the right page', 'panel: box left, line: 30, least: 0', 60],
    ['seen from that page', 'panel: box left, line: 30, reference: right page, least: 0', 0],
    // The right wall's card rises towards the gutter, away from the right fore-edge: heading 120°.
    [
      'of a wall parallel to the left page',
      'panel: box right, line: 30, reference: right page, least: 0',
      -60,
    ],
  ])('is that of %s', (_, want, degrees) => {
    expect(wanted(`kind: turn, ${want}`)).toMatchObject({
      unit: 'degrees',
      value: expect.closeTo(degrees, 9),
    });
  });

  it('goes on beyond half a turn, and further', () => {
    const spinning = handMoved((pageAngle) => ({ heading: 3 * (180 - pageAngle) }));
    const want = { kind: 'turn', unit: 'degrees', panel: 'card', line: 0, reference: 'left page' } as const;
    expect(wantOf(want, spinning)).toEqual({ value: expect.closeTo(540, 9) });
    expect(wantOf({ ...want, to: 30 }, spinning)).toEqual({ value: expect.closeTo(450, 9) });
  });

  it('is nothing of a line that lies straight up a wall which rises and folds over', () => {
    for (const line of [90, 0])
      expect(wanted(`kind: turn, panel: box left, line: ${line}, least: 0`).value).toBeCloseTo(0, 9);
  });
});

describe('travel', () => {
  // A point of the right page goes round the gutter by its distance from it; between φ and φ′ it gets a chord of
  // 2 r sin((φ − φ′)/2) away.
  const r = 60 + 10 * cos(20);
  it.each([
    ['from one page to the other', 'panel: oar, point: [10, 0], least: 0', 2 * r],
    ['between two page angles', 'panel: oar, point: [10, 0], from: 130, to: 80, least: 0', 2 * r * sin(25)],
    ['as far on the way back', 'panel: oar, point: [10, 0], from: 80, to: 130, least: 0', 2 * r * sin(25)],
    ['seen from the page that it lies on', 'panel: oar, point: [10, 0], reference: right page, least: 0', 0],
    [
      'of the left page seen from the right one',
      'panel: raft, point: [0, 8], reference: right page, least: 0',
      2 * (90 + 8 * sin(25)),
    ],
    // The left wall stays parallel to the right page: seen from it, all of that page goes as the gutter does, 30 mm
    // from the wall's foot.
    ['seen from a wall', 'panel: oar, point: [10, 0], reference: box left, least: 0', 2 * 30],
    // The right wall stays parallel to the left page, and goes with its foot, 20 mm from the gutter.
    ['of a wall', 'panel: box right, point: [7, 11], least: 0', 2 * 20],
    // Seen from its page it turns about its foot, 11 mm below.
    ['of a wall about its foot', 'panel: box right, point: [7, 11], reference: right page, least: 0', 2 * 11],
  ])('is that of a point %s', (_, want, mm) => {
    expect(wanted(`kind: travel, ${want}`)).toMatchObject({ unit: 'mm', value: expect.closeTo(mm, 9) });
  });

  it('is the farthest that a point gets, wherever it ends', () => {
    // Out by 40 mm at 90°, and back again.
    const swaying = handMoved((pageAngle) => ({ along: 40 * sin(pageAngle) }));
    const travel = (from: number, to: number) =>
      wantOf(
        { kind: 'travel', unit: 'mm', panel: 'card', point: [2, 3], reference: 'left page', from, to },
        swaying,
      );
    expect(travel(180, 0)).toEqual({ value: expect.closeTo(40, 9) });
    expect(travel(150, 30)).toEqual({ value: expect.closeTo(20, 9) });
    expect(travel(30, 0)).toEqual({ value: expect.closeTo(20, 9) });
  });
});

describe('travel seen from a card that a hand moves', () => {
  it('is that of the card, the other way', () => {
    const sliding = handMoved((pageAngle) => ({ along: (180 - pageAngle) / 6, up: (180 - pageAngle) / 4.5 }));
    const travel = wantOf(
      { kind: 'travel', unit: 'mm', panel: 'left page', point: [-20, 30], reference: 'card' },
      sliding,
    );
    expect(travel).toEqual({ value: expect.closeTo(Math.hypot(30, 40), 9) });
    // As it turns in its place by half a turn, what lies 50 mm from its corner goes round by 100 mm.
    const turning = handMoved((pageAngle) => ({ heading: 180 - pageAngle }));
    const round = wantOf(
      { kind: 'travel', unit: 'mm', panel: 'left page', point: [-70, 90], reference: 'card' },
      turning,
    );
    // The card lies 1 mm over the page, which turning does not change.
    expect(round).toEqual({ value: expect.closeTo(100, 9) });
  });
});

describe('any want', () => {
  it('is told down to where the figure locks, and no farther', () => {
    // Sides that differ by 10 mm lock where the feet have come as near as 7, 3 mm less: 2 · 40 sin(φ/2) = 7 mm, at 10.0°.
    const locking = (want: string) => {
      const figure = compileFigure(
        parseFigure(
          `page: A5
parts: [{ name: hut, kind: parallel-fold, at: 40, length: 60, glue: [40, 40], widths: [60, 50] }]
wants: [{ name: it, panel: hut left, ${want}, most: 500 }]
`,
          'hut.yaml',
        ),
      );
      return new Scorer(figure).score(figure.start).wants[0];
    };
    for (const [kind, from, to] of [
      ['rise', 180, 11],
      ['rise', 11, 180],
      ['level', 90, 12],
    ])
      expect(locking(`kind: ${kind}, from: ${from}, to: ${to}`).value).toBeGreaterThan(10);
    expect(locking('kind: follow, line: 0, at: [[90, 0], [11, 0]]').value).not.toBeNull();
    for (const [want, before] of [
      ['kind: rise, from: 180, to: 9', 9],
      ['kind: rise, from: 9, to: 180', 9],
      ['kind: level', 10],
      ['kind: follow, line: 0, at: [[90, 0], [9, 0]]', 9],
    ] as const)
      expect(locking(want)).toMatchObject({
        value: null,
        met: false,
        unknown: { because: 'it locks before', pageAngle: expect.closeTo(10.04, 1), before },
      });
  });
});

describe('rise', () => {
  // Over the left page a point of the left wall, y up from its foot, stands at y sin φ, and over the right one at
  // 30 sin φ: the foot's distance. Of the right wall it is 20 sin φ, and y sin φ.
  it.each([
    ['of its highest corner where no point is given', 'panel: box left, least: 0', 20],
    ['of the ridge, nearer to the left page than to the right one', 'panel: box right, least: 0', 20],
    ['of a point of the left wall', 'panel: box left, point: [5, 8], least: 0', 8],
    ['of a point of the right wall', 'panel: box right, point: [5, 8], least: 0', 8],
    [
      'of a point of the right wall nearer to the left page',
      'panel: box right, point: [5, 26], least: 0',
      20,
    ],
    ['while it opens only', 'panel: box left, point: [5, 8], to: 150, least: 0', 8 * sin(150)],
    ['while it shuts only', 'panel: box left, point: [5, 8], from: 40, to: 0, least: 0', 8 * sin(40)],
    ['between frames', 'panel: box left, point: [5, 8], from: 12.3, to: 31.1, least: 0', 8 * sin(31.1)],
    ['of what lies flat on a page', 'panel: oar, least: 0', 0],
  ])('is that %s', (_, want, mm) => {
    expect(wanted(`kind: rise, ${want}`)).toMatchObject({ unit: 'mm', value: expect.closeTo(mm, 9) });
  });
});

describe('follow', () => {
  const at = (...wants: [number, number][]) => `at: ${JSON.stringify(wants)}`;
  const [far, near] = [turned(30, 180, 120), turned(30, 180, 60)];
  it.each([
    ['nothing where it is followed to the degree', at([180, 0], [120, far], [60, near], [0, 120]), 0],
    ['by how much it is ahead', at([120, far - 5], [60, near]), 5],
    ['by how much it lags', at([120, far], [60, near + 7]), 7],
    ['the worst of all, in whatever order', at([60, near + 3], [120, far + 11], [0, 121]), 11],
    // A heading counts from the open page, so there it is none.
    ['what is asked of the open page', at([180, -13], [60, near]), 13],
  ])('is %s', (_, want, degrees) => {
    expect(wanted(`kind: follow, panel: oar, line: 10, ${want}, most: 5`)).toMatchObject({
      unit: 'degrees',
      value: expect.closeTo(degrees, 9),
    });
  });

  it('may be seen from the other page, along a line through two points', () => {
    const seen = `panel: raft, line: [[0, 0], [10, 0]], reference: right page, ${at([120, turned(25, 180, 120) + 4])}`;
    expect(wanted(`kind: follow, ${seen}, most: 5`).value).toBeCloseTo(4, 9);
  });
});

describe('against', () => {
  const both = (a: string, b: string, more = '') =>
    wanted(`kind: against, panels: [${a}, ${b}], ${more} least: 0`);
  // With a line at 10° the oar is at 30° and turns by 120°, the rudder is at 140° and turns by 180° − 280°.
  it('is the lesser turn of two that turn against each other', () => {
    expect(both('oar', 'rudder', 'line: 10,')).toMatchObject({
      unit: 'degrees',
      value: expect.closeTo(100, 9),
      met: true,
    });
    expect(both('rudder', 'oar', 'line: 10,').value).toBeCloseTo(100, 9);
    // At their feet, 20° and 130°: 140° and −80°.
    expect(both('oar', 'rudder', 'line: [[0, 0], [4, 0]],').value).toBeCloseTo(80, 9);
    expect(both('oar', 'rudder', 'line: 10, from: 120, to: 60,').value).toBeCloseTo(
      Math.min(turned(30, 120, 60), -turned(140, 120, 60)),
      9,
    );
  });

  it('is less than nothing by the lesser turn of two that turn alike', () => {
    // The box's left wall, parallel to the right page: its foot is square to the page's, so its line is at 80°: 20°.
    expect(both('oar', 'box left', 'line: 10,')).toMatchObject({ value: expect.closeTo(-20, 9), met: false });
  });

  it('is nothing where one of them stays, as both do seen from their own page', () => {
    expect(both('oar', 'raft', 'line: 10,').value).toBeCloseTo(0, 9);
    expect(both('oar', 'rudder', 'line: 10, reference: right page,').value).toBeCloseTo(0, 9);
  });
});

describe('level', () => {
  it.each([
    // To the left page it stands as the right page does: φ, and from flat on the other side 180° − φ.
    ['a wall and the page it leans over', 'panel: box left, most: 3', 90],
    ['as far as it opens', 'panel: box left, to: 150, most: 3', 30],
    ['on its way to shut', 'panel: box left, from: 70, to: 20, most: 3', 70],
    ['a wall and the page it is parallel to', 'panel: box left, reference: right page, most: 3', 0],
    ['two walls', 'panel: box left, reference: box right, from: 60, to: 50, most: 3', 60],
    ['the other wall and its page', 'panel: box right, most: 3', 0],
    ['two strips on one page', 'panel: oar, reference: rudder, most: 3', 0],
  ])('is the angle between the planes of %s', (_, want, degrees) => {
    expect(wanted(`kind: level, ${want}`)).toMatchObject({
      unit: 'degrees',
      value: expect.closeTo(degrees, 9),
    });
  });
});

/** A card that a hand moves flat over the left page: how far along it and up, and its heading, degrees, by page angle. */
function handMoved(at: (pageAngle: number) => { along?: number; up?: number; heading?: number }) {
  const assembly = assemble([]);
  const panel = assembly.addPanel({
    name: 'card',
    part: 'card',
    piece: 'card',
    outline: [0, 0, 10, 0, 10, 20, 0, 20],
  });
  assembly.addStep({
    part: 'card',
    place(poses) {
      const { along = 0, up = 0, heading = 0 } = at(Math.acos(-poses[POSE]) / RADIANS);
      writePose(
        poses,
        panel,
        -100 + along,
        50 + up,
        1,
        cos(heading),
        sin(heading),
        0,
        -sin(heading),
        cos(heading),
        0,
      );
    },
  });
  return assembly;
}
