import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { compileFigure } from '../../src/figure/figure.js';
import { InputError } from '../../src/figure/input-error.js';
import { type Json, parseFigure } from '../../src/figure/source.js';
import { CannotBuild } from '../../src/motion/cannot-build.js';

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

type Path = (string | number)[];

function paths(value: Json, at: Path = []): Path[] {
  if (value === null || typeof value !== 'object') return [at];
  return [at, ...Object.entries(value).flatMap(([name, part]) => paths(part, [...at, name]))];
}

/** The figure with what stands at a path changed. */
function changed(
  value: Json,
  [step, ...rest]: Path,
  change: (was: Json) => Json | undefined,
): Json | undefined {
  if (step === undefined) return change(value);
  const copy = structuredClone(value) as { [field: string]: Json };
  const now = changed(copy[step], rest, change);
  if (now !== undefined) copy[step] = now;
  else if (Array.isArray(copy)) copy.splice(Number(step), 1);
  else delete copy[step];
  return copy;
}

const everywhere = paths(SOUND).slice(1);
const hostile = fc.oneof(
  fc.constantFrom<Json>(
    0,
    -1,
    1e-9,
    1e6,
    1e300,
    -1e300,
    5e-324,
    180,
    90,
    0.5,
    null,
    true,
    '',
    [],
    {},
    [[]],
    [1, 2],
  ),
  fc.constantFrom<Json>(
    'wide',
    'way',
    'lean * 1e9',
    '0 / 0',
    'a b',
    'boat',
    'man left',
    'gutter',
    'left page',
    'turn',
  ),
  fc.constantFrom<Json>(
    '__proto__',
    'constructor',
    '../../x',
    '\u0007',
    'x'.repeat(5000),
    '=1+1',
    '<b>',
    '…',
  ),
  fc.string(),
  fc.double(),
  fc.jsonValue({ maxDepth: 3 }) as fc.Arbitrary<Json>,
);
const change = fc.record({
  at: fc.constantFrom(...everywhere),
  by: fc.constantFrom('replace', 'remove', 'rename', 'repeat', 'swap'),
  value: hostile,
  other: fc.constantFrom(...everywhere),
});

function apply(
  figure: Json,
  { at, by, value, other }: { at: Path; by: string; value: Json; other: Path },
): Json {
  // After other changes a path may lead nowhere; then nothing is changed.
  try {
    const there = other.reduce<Json>((part, step) => {
      if (part === null || typeof part !== 'object') throw new RangeError('nothing there');
      return (part as { [field: string]: Json })[step];
    }, figure);
    const result = changed(figure, at, (was) => {
      if (by === 'replace') return value;
      if (by === 'remove') return undefined;
      if (by === 'swap') return there;
      if (by === 'repeat') return Array.isArray(was) ? [...was, ...was] : [was, was];
      if (was === null || typeof was !== 'object' || Array.isArray(was)) return was;
      return Object.fromEntries(
        Object.entries(was).map(([name, part], i) => [i === 0 ? `${name}s` : name, part]),
      );
    });
    return result ?? figure;
  } catch {
    return figure;
  }
}

describe('a figure file that went wrong', () => {
  it('is sound to begin with', () => {
    expect(staysCalm(stringify(SOUND))).toBe(true);
  });

  it('in its structure or its values never ends in anything but a message', () => {
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 3 }), (changes) => {
        staysCalm(stringify(changes.reduce(apply, SOUND)));
      }),
      { numRuns: 600 },
    );
  });

  it('in its letters never ends in anything but a message', () => {
    const text = stringify(SOUND);
    const letters = fc.constantFrom(
      ...'[]{}:,-?&*!|>%@`"\'#\n\t 0e.~',
      '\r\n',
      '  ',
      '- ',
      ': ',
      '{ ',
      '\u0000',
      '…',
    );
    const edit = fc.record({
      at: fc.nat(text.length),
      cut: fc.nat(6),
      put: fc.array(letters, { maxLength: 4 }).map((all) => all.join('')),
    });
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 4 }), (edits) => {
        staysCalm(
          edits.reduce((now, { at, cut, put }) => now.slice(0, at) + put + now.slice(at + cut), text),
        );
      }),
      { numRuns: 400 },
    );
  });
});
