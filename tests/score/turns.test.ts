import { describe, expect, test } from 'vitest';
import { RIGHT_PAGE } from '../../src/motion/assembly.js';
import { POSE, writePose } from '../../src/motion/pose.js';
import { measure } from '../../src/score/reach.js';
import { assemble, open, rectangle, wantOf } from '../support/assemble.js';
import { random, randomFigure } from './random-figures.js';

const RADIANS = Math.PI / 180;
const sin = (degrees: number) => Math.sin(degrees * RADIANS);
const asin = (sine: number) => Math.asin(sine) / RADIANS;

/** A line of the right page, at this angle from square to the gutter, seen from the left page. */
const onThePage = (degrees: number) =>
  wantOf(
    { kind: 'turn', unit: 'degrees', panel: 'right page', line: degrees, reference: 'left page' },
    assemble([]),
  );

describe('a line that goes by nearly end on', () => {
  // Seen from the left page the end of the line goes straight past the pole, at s = sin(its angle) from it, from one side
  // to the other. Outside the circle of radius R = sin 15° its heading counts, from its own angle to asin(s/R); within,
  // twice the area of a triangle of height s, as a share of R².
  const R = sin(15);
  const past = (degrees: number) => {
    const s = sin(degrees);
    return 2 * (asin(s / R) - degrees) + (2 * s * Math.sqrt(R * R - s * s)) / R / R / RADIANS;
  };

  test('turns the less, the nearer; end on not at all', () => {
    for (const degrees of [14, 9, 3, 0.01])
      for (const side of [1, -1])
        expect(onThePage(side * degrees)).toEqual({ value: expect.closeTo(side * past(degrees), 9) });
    expect(onThePage(0)).toEqual({ value: expect.closeTo(0, 9) });
    expect(past(0.01)).toBeLessThan(0.14);
  });

  test('15° from it and more turns as its heading does', () => {
    for (const degrees of [15, 15.1, 40, 80])
      expect(onThePage(degrees)).toEqual({ value: expect.closeTo(180 - 2 * degrees, 9) });
    expect(past(15)).toBeCloseTo(150, 9);
  });

  test('has no turn where it is seen end on all the way', () => {
    const assembly = assemble([]);
    const panel = assembly.addPanel({
      name: 'card',
      part: 'card',
      piece: 'card',
      outline: [0, 0, 9, 0, 9, 9],
    });
    // It spins about its own upright, which stands square to the left page.
    assembly.addStep({
      part: 'card',
      place(poses) {
        const c = poses[POSE];
        const s = Math.sqrt(1 - c * c);
        writePose(poses, panel, -50, 50, 1, c, s, 0, 0, 0, 1);
      },
    });
    const turn = (line: number) =>
      wantOf({ kind: 'turn', unit: 'degrees', panel: 'card', line, reference: 'left page' }, assembly);
    expect(turn(90)).toEqual({ unknown: { because: 'it is seen end on' } });
    expect(Math.abs('value' in turn(0) ? (turn(0) as { value: number }).value : 0)).toBeCloseTo(180, 6);
  });
});

test('a hair of a line changes a hair of its turn: no line of a random figure leaps', () => {
  const rnd = random(19);
  let passing = 0;
  for (let i = 0; i < 12; i++) {
    const figure = randomFigure(rnd);
    const opening = open(figure);
    const { name: panel } = figure.panels[2 + Math.floor(rnd() * (figure.panels.length - 2))];
    const to = opening.lock === null ? 0 : Math.ceil(opening.lock.pageAngle) + 1;
    if (to >= 180) continue;
    const turn = (line: number) => {
      const fields = { name: 'w', unit: 'degrees', weight: 1, from: 180, to, least: 0 } as const;
      const turned = measure(
        {
          ...fields,
          kind: 'turn',
          panel,
          line,
          reference: 'left page',
          either: undefined,
          most: undefined,
          target: undefined,
          tolerance: undefined,
        },
        figure,
        opening,
      );
      return 'value' in turned ? turned.value : 0;
    };
    // The greatest change between lines 10° apart is halved, and halved again: a leap would stay as it is.
    const turns = Array.from({ length: 19 }, (_, k) => ({ line: 10 * k, turned: turn(10 * k) }));
    const steps = turns.slice(1).map((b, k) => [turns[k], b] as const);
    const change = ([a, b]: (typeof steps)[number]) => Math.abs(b.turned - a.turned);
    let greatest = steps.reduce((a, b) => (change(b) > change(a) ? b : a));
    if (change(greatest) > 90) passing++;
    for (let k = 0; k < 30; k++) {
      const line = (greatest[0].line + greatest[1].line) / 2;
      const middle = { line, turned: turn(line) };
      const halves = [
        [greatest[0], middle],
        [middle, greatest[1]],
      ] as const;
      greatest = change(halves[0]) > change(halves[1]) ? halves[0] : halves[1];
    }
    expect(change(greatest), panel).toBeLessThan(1e-4);
  }
  // Some lines do go by end on.
  expect(passing).toBeGreaterThan(2);
});

describe('two panels against each other, where no line is given', () => {
  // Cards on the right page as the issue had it: a rectangle of which now one diagonal is longer, now the other.
  const against = (lean: number, high: number) => {
    const outline = [
      [0, 0],
      [30, 0],
      [30 + lean, high],
      [lean, high],
    ];
    const piece = { kind: 'glued-piece', outline, up: undefined };
    const value = wantOf(
      { kind: 'against', unit: 'degrees', panels: ['a', 'b'], line: undefined, reference: 'left page' },
      assemble(
        [
          { name: 'a', ...piece, on: 'right page', at: [30, 20], turn: 20 },
          { name: 'b', ...piece, on: 'right page', at: [90, 20], turn: 130 },
        ].map(({ up: _, ...part }) => part),
      ),
    );
    if ('unknown' in value) throw new Error(value.unknown.because);
    return value.value;
  };

  test('a hair of shear or of height does not change which way is long', () => {
    expect(against(-1e-6, 30)).toBeCloseTo(against(1e-6, 30), 3);
    expect(against(0, 30 - 1e-6)).toBeCloseTo(against(0, 30 + 1e-6), 3);
  });

  test('a straw turns as its length does', () => {
    // At headings of 20° and 130° the straws turn by 180° − 40° and 180° − 260°.
    expect(against(0, 0.5)).toBeCloseTo(80, 0);
  });
});

describe('a panel that swings about the line it hangs on', () => {
  const swing = (panel: string, reference: string, parts: Parameters<typeof assemble>[0], span = {}) => {
    const found = wantOf({ kind: 'swing', unit: 'degrees', panel, reference, ...span }, assemble(parts));
    return 'value' in found ? found.value : Number.NaN;
  };
  const piece = { kind: 'glued-piece', at: [4, 3], turn: 35, outline: rectangle(12, 9) };
  // Feet d from the gutter, sides w wide, half the page angle φ: by the law of sines in the triangle of gutter, foot and ridge the
  // side stands at 180° − φ − asin(d sin φ / w) to the way to the gutter.
  const [d, w] = [30, 40];
  const stands = (pageAngle: number) => 180 - pageAngle / 2 - asin((d * sin(pageAngle / 2)) / w);
  const tent = { name: 'tent', kind: 'parallel-fold', at: 40, length: 60, glue: [d, d], widths: [w, w] };

  test('swings by what the angle at its crease changes, on either side, glued pieces with it', () => {
    const parts = [tent, { ...piece, name: 'sign', on: 'tent left' }];
    const whole = stands(0) - stands(180);
    expect(swing('tent left', 'left page', parts)).toBeCloseTo(whole, 9);
    expect(swing('sign', 'left page', parts)).toBeCloseTo(whole, 9);
    expect(swing('tent right', 'right page', parts)).toBeCloseTo(whole, 9);
    expect(swing('tent left', 'left page', parts, { from: 120, to: 40 })).toBeCloseTo(
      stands(40) - stands(120),
      9,
    );
    // Seen in the plane of the page its upright does not turn: that is what `turn` tells.
    const turn = wantOf(
      { kind: 'turn', unit: 'degrees', panel: 'tent left', line: 0, reference: 'left page' },
      assemble(parts),
    );
    expect(turn).toEqual({ value: expect.closeTo(0, 9) });
  });

  test('a page swings about the gutter, and what is glued on it', () => {
    // The ridge of a box of 30 by 30 is square over the gutter at 90°: its left side, from flat on the page to flat again.
    const box = { name: 'box', kind: 'parallel-fold', shape: 'box', at: 40, length: 60, glue: [30, 30] };
    expect(swing('box left', 'left page', [box])).toBeCloseTo(180, 9);
    // Against the other page it stands as that does against it: parallel all the way.
    expect(swing('box left', 'right page', [box])).toBeCloseTo(0, 9);
    expect(swing('right page', 'left page', [])).toBeCloseTo(180, 9);
    expect(swing('note', 'left page', [{ ...piece, name: 'note', on: 'right page' }])).toBeCloseTo(180, 9);
  });

  /** A card on the left page whose axes are set anew at each page angle, of which the cosine is given. */
  const moved = (axes: (cosine: number) => readonly [number, number, number, number, number, number]) => {
    const assembly = assemble([]);
    const panel = assembly.addPanel({
      name: 'card',
      part: 'card',
      piece: 'card',
      outline: [0, 0, 9, 0, 9, 9],
    });
    assembly.addStep({
      part: 'card',
      place: (poses) => writePose(poses, panel, -50, 50, 1, ...axes(poses[RIGHT_PAGE * POSE])),
    });
    return wantOf({ kind: 'swing', unit: 'degrees', panel: 'card', reference: 'left page' }, assembly);
  };

  test('counts as far as it gets, though it goes back again', () => {
    const thereAndBack = moved((cosine) => [0, 1, 0, Math.abs(cosine), 0, Math.sqrt(1 - cosine * cosine)]);
    expect(thereAndBack).toEqual({ value: expect.closeTo(90, 9) });
  });

  test('has no swing where the reference stands square to that line all the way', () => {
    // It stands on end on the left page, and spins about its foot.
    expect(moved((cosine) => [0, 0, 1, cosine, Math.sqrt(1 - cosine * cosine), 0])).toEqual({
      unknown: { because: 'it is seen end on' },
    });
  });
});
