import { describe, expect, test } from 'vitest';
import { POSE, writePose } from '../../src/motion/pose.js';
import { measure } from '../../src/score/reach.js';
import { assemble, open, wantOf } from '../support/assemble.js';
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
