import { describe, expect, it } from 'vitest';
import { holds } from '../../src/geometry/polygon.js';
import { CannotBuild } from '../../src/motion/cannot-build.js';
import { assemble, open, rectangle, worstGap } from '../support/assemble.js';

/** A tent with a ridge of 170 mm, and counter-folds cut from its sheet: from where along the ridge, to where. */
const tentWith = (...folds: (readonly [number, number])[]) =>
  assemble([
    { name: 'tent', kind: 'parallel-fold', at: 20, length: 170, glue: [30, 30], widths: [60, 60] },
    ...folds.map(([from, to], i) => ({
      name: `fin ${i}`,
      kind: 'counter-fold',
      on: 'tent ridge',
      at: from,
      toward: to > from ? 'end' : 'start',
      diagonal: 40,
      side: 15,
      length: Math.abs(to - from),
    })),
  ]);
type Tent = ReturnType<typeof tentWith>;

/** The stretches of the ridge by which its joints hold the two sides together, in order, as each side sees them. */
const stretchesOf = (tent: Tent) => {
  const sides = ['tent left', 'tent right'].map((name) => tent.panelNamed(name, ''));
  return [0, 1].map((end) =>
    tent.joints
      .flatMap((joint) =>
        joint.kind === 'crease' && joint.between.every((k) => sides.includes(k)) ? [joint.lines[end]] : [],
      )
      .map(({ x0, x1 }) => [x0, x1].map((x) => Math.round(1e6 * x) / 1e6))
      .sort(([a], [b]) => a - b),
  );
};

/** The same, read off the card alone: where both sides still reach up to the ridge, to 0.5 mm. */
const stretchesOfCard = (tent: Tent) => {
  const found: number[][] = [];
  let from = -1;
  for (let x = 0.25; x < 171; x += 0.5) {
    const whole = ['tent left', 'tent right'].every((name) => {
      const panel = tent.panels[tent.panelNamed(name, '')];
      return holds(panel, x, panel.up * (60 - 0.01));
    });
    if (whole && from < 0) from = x - 0.25;
    if (!whole && from >= 0) found.push([from, x - 0.25]);
    if (!whole) from = -1;
  }
  return found;
};

describe('counter-folds cut from the sheet of one crease', () => {
  it.each([
    [
      'one leaves two stretches of it',
      [[60, 78]],
      [
        [0, 60],
        [78, 170],
      ],
    ],
    [
      'two leave three',
      [
        [60, 78],
        [122, 140],
      ],
      [
        [0, 60],
        [78, 122],
        [140, 170],
      ],
    ],
    [
      'so they do when the far one comes first',
      [
        [122, 140],
        [60, 78],
      ],
      [
        [0, 60],
        [78, 122],
        [140, 170],
      ],
    ],
    [
      'so they do when one points to the start',
      [
        [140, 122],
        [60, 78],
      ],
      [
        [0, 60],
        [78, 122],
        [140, 170],
      ],
    ],
    ['one at its end leaves one', [[170, 150]], [[0, 150]]],
    [
      'two at its ends leave one',
      [
        [0, 20],
        [170, 150],
      ],
      [[20, 150]],
    ],
    [
      'one that takes all that is left between two leaves the rest',
      [
        [60, 78],
        [122, 140],
        [78, 122],
      ],
      [
        [0, 60],
        [140, 170],
      ],
    ],
  ] as [string, [number, number][], number[][]][])('%s', (_, folds, stretches) => {
    const tent = tentWith(...folds);
    expect(stretchesOfCard(tent)).toEqual(stretches);
    expect(stretchesOf(tent)).toEqual([stretches, stretches]);
    expect(worstGap(tent, open(tent))).toBeLessThan(1e-5);
  });

  it('may not take all of it, together or alone', () => {
    for (const folds of [
      [[0, 170]],
      [
        [0, 80],
        [170, 80],
      ],
    ] as [number, number][][])
      expect(() => tentWith(...folds)).toThrow(CannotBuild);
    expect(() => tentWith([0, 80], [170, 80])).toThrow(/takes up the whole crease/);
  });

  // By hand: a slit of the first goes from 70 on the ridge to where its diagonal ends, 60 + 15 cos 40° = 71.49 along, 9.64 deep;
  // that of one from the other side from 74 to 84 − 11.49 = 72.51, or from 71 to 82 − 11.49 = 70.51, as deep: across the first.
  it('runs into no edge of the card, as of a counter-fold that is cut already, and into no hole', () => {
    expect(() => tentWith([60, 70], [84, 74])).not.toThrow();
    expect(() => tentWith([60, 70], [82, 71])).toThrow(/runs into the edge of that.* shorter side or length/);
    const window = (x: number) =>
      assemble([
        {
          name: 'tent',
          kind: 'parallel-fold',
          at: 20,
          length: 170,
          glue: [30, 30],
          widths: [60, 60],
          outlines: {
            left: { polygon: rectangle(170, 60), holes: [rectangle(8, 8).map(([a, b]) => [x + a, 42 + b])] },
          },
        },
        { name: 'fin', kind: 'counter-fold', on: 'tent ridge', at: 60, diagonal: 40, side: 30, length: 20 },
      ]);
    expect(() => window(90)).not.toThrow();
    for (const x of [70, 75])
      expect(() => window(x)).toThrow(/runs into a hole of that.* shorter side or length/);
  });
});
