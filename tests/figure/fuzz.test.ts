import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { compileFigure } from '../../src/figure/figure.js';
import { InputError } from '../../src/figure/text/input-error.js';
import { type Json, parseFigure } from '../../src/figure/text/source.js';
import { CannotBuild } from '../../src/motion/cannot-build.js';
import { scribbledFigure, spoiltFigure } from '../hostile/mutations.js';

const SOUND: Json = {
  figure: 'Ferry',
  page: { width: 150, height: 200 },
  card: { grammage: 250, bulk: 1.3, grain: 'along', pieces: { boat: { thickness: 0.4 } } },
  opening: { step: 1 },
  dims: {
    width: { from: 30, to: 50, start: 45, step: 0.5 },
    lean: { from: 50, to: 80 },
    way: { choose: ['in', 'out'] },
    wide: 'width / 2 + 2 * sin(lean)',
    foot: 25,
  },
  parts: [
    {
      name: 'boat',
      kind: 'parallel-fold',
      at: 20,
      length: 60,
      glue: ['foot', 20],
      widths: ['wide', 'wide + 5'],
    },
    {
      name: 'man',
      kind: 'v-fold',
      at: 120,
      glue: ['lean', 'lean'],
      panels: ['lean + 3', 'lean + 3'],
      feet: [30, 30],
      ridge: 40,
      points: 'way',
    },
    {
      name: 'flag',
      kind: 'glued-piece',
      on: 'man left',
      at: [5, 10],
      outline: {
        polygon: [
          [0, 0],
          ['foot', 0],
          [0, 9],
        ],
      },
    },
    {
      name: 'rail',
      kind: 'strut',
      foot: {
        panel: 'left page',
        line: [
          [-60, 40],
          [-60, 60],
        ],
      },
      top: {
        panel: 'boat left',
        line: [
          [10, 20],
          [30, 20],
        ],
      },
      height: 'foot + 20',
      tab: { width: 6, side: 'outer' },
    },
  ],
  wants: [
    {
      name: 'leans',
      kind: 'turn',
      panel: 'man left',
      least: 20,
      line: [
        [0, 0],
        [0, 'wide'],
      ],
    },
    {
      name: 'follows',
      kind: 'follow',
      panel: 'flag',
      at: [
        [180, 0],
        [90, 20],
      ],
      most: 5,
      weight: 2,
    },
  ],
  limits: { pile: 4, flatWhenOpen: 'no' },
  keepClear: [{ name: 'candle', from: [-60, 20, 0], to: [-40, 60, 30] }],
  trims: [
    {
      panel: 'man left',
      region: [
        [0, 0],
        [5, 0],
        [0, 5],
      ],
    },
  ],
};

/** Whatever is done to a figure file: it is refused in words, or makes a figure whose candidates are built or fail in words. */
function staysCalm(text: string): boolean {
  let figure: ReturnType<typeof compileFigure>;
  try {
    figure = compileFigure(parseFigure(text, 'f.yaml'));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    expect(error.found).not.toBe('');
    expect(error.remedy).not.toBe('');
    expect(error.message).not.toMatch(/undefined|NaN|\[object|\n/);
    return false;
  }
  for (const at of [0, 0.37, 1]) {
    const vector = Float64Array.from(figure.free, (dim) =>
      dim.kind === 'real' ? dim.min + at * (dim.max - dim.min) : Math.floor(at * (dim.options.length - 1)),
    );
    try {
      figure.build(vector);
      figure.wantsOf(vector);
    } catch (error) {
      if (!(error instanceof CannotBuild)) throw error;
      expect(error.message).not.toMatch(/undefined|NaN|\[object/);
    }
  }
  return true;
}

const TEXT = stringify(SOUND);

describe('a figure file that went wrong', () => {
  it('is sound to begin with', () => {
    expect(staysCalm(TEXT)).toBe(true);
  });

  it('in its structure or its values never ends in anything but a message', () => {
    fc.assert(
      fc.property(spoiltFigure([TEXT]), (text) => {
        staysCalm(text);
      }),
      { numRuns: 300 },
    );
  });

  it('in its letters never ends in anything but a message', () => {
    fc.assert(
      fc.property(scribbledFigure([TEXT]), (text) => {
        staysCalm(text);
      }),
      { numRuns: 200 },
    );
  });
});
