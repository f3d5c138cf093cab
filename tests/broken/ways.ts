import type { Json } from '../../src/figure/text/source.js';
import type { Random } from '../../src/search/random.js';

/** Field names and list places that lead to a value of a figure file. */
export type Place = readonly (string | number)[];

/** One value of a figure that can be spoilt, and a function that draws what it is spoilt to. */
export interface Weakness {
  readonly place: Place;
  spoil(random: Random): number | string;
}

/** One way in which makers go wrong, and the values of a figure at which it can happen. */
export interface Way {
  readonly name: string;
  weaknesses(figure: Fields): Weakness[];
}

/** What was done to one figure. */
export interface Break {
  readonly file: string;
  readonly base: string;
  readonly way: string;
  readonly place: Place;
  /** null: the field was left out. */
  readonly from: Json;
  readonly to: Json;
  /** The limits and wants that are not met, or why it cannot be built, as found when it was drawn. */
  readonly fails: readonly string[];
}

type Fields = { readonly [field: string]: Json };

const between = (random: Random, low: number, high: number) => low + (high - low) * random.next();
/** To half a millimetre or half a degree, as a maker measures. */
const measured = (value: number) => Math.round(2 * value) / 2;
const either = (random: Random, low: number, high: number) =>
  between(random, low, high) * (random.next() < 0.5 ? -1 : 1);

/** The values of parts of one kind that stand at a place of their fields and are plain numbers. */
function numbers(
  figure: Fields,
  kind: string,
  field: Place,
  change: (value: number, random: Random) => number,
): Weakness[] {
  return partsOf(figure, kind).flatMap(({ part, at }) => {
    const value = valueAt(part, field);
    if (typeof value !== 'number') return [];
    return [{ place: [...at, ...field], spoil: (random) => measured(change(value, random)) }];
  });
}

/** A dim that is a plain number. */
function dim(figure: Fields, names: readonly string[], change: (value: number, random: Random) => number) {
  return names.flatMap((name): Weakness[] => {
    const value = valueAt(figure, ['dims', name]);
    if (typeof value !== 'number') return [];
    return [{ place: ['dims', name], spoil: (random) => measured(change(value, random)) }];
  });
}

/** A word of parts of one kind, to be turned into another; it may be left out. */
function words(figure: Fields, kind: string, field: string, usual: string, other: string): Weakness[] {
  return partsOf(figure, kind).flatMap(({ part, at }) => {
    const value = part[field] ?? usual;
    return value === usual || value === other
      ? [{ place: [...at, field], spoil: () => (value === usual ? other : usual) }]
      : [];
  });
}

function partsOf(figure: Fields, kind: string): { part: Fields; at: Place }[] {
  const parts = (figure.parts ?? []) as Fields[];
  return parts.map((part, i) => ({ part, at: ['parts', i] })).filter(({ part }) => part.kind === kind);
}

export function valueAt(value: Json | undefined, place: Place): Json | undefined {
  return place.reduce<Json | undefined>(
    (inner, step) =>
      typeof inner === 'object' && inner !== null ? (inner as Fields)[String(step)] : undefined,
    value,
  );
}

const sides = [0, 1] as const;
const each = (make: (side: number) => Weakness[]) => sides.flatMap(make);

/** Ways to spoil a figure. Where one asks for a plain number, dims that are no numbers and arithmetic are passed over. */
export const WAYS: readonly Way[] = [
  { name: 'a V-fold the wrong way round', weaknesses: (f) => words(f, 'v-fold', 'points', 'in', 'out') },
  {
    name: 'a V-fold measured from the wrong end',
    weaknesses: (f) => words(f, 'v-fold', 'toward', 'end', 'start'),
  },
  {
    name: 'a counter-fold that points the wrong way',
    weaknesses: (f) => words(f, 'counter-fold', 'toward', 'end', 'start'),
  },
  {
    name: 'a counter-fold folded out instead of in',
    weaknesses: (f) => words(f, 'counter-fold', 'fold', 'in', 'out'),
  },
  {
    name: 'panel angles that do not sum',
    weaknesses: (f) =>
      each((i) => numbers(f, 'v-fold', ['panels', i], (value, random) => value + either(random, 3, 12))),
  },
  {
    name: 'a glue line at a wrong angle',
    weaknesses: (f) =>
      each((i) => numbers(f, 'v-fold', ['glue', i], (value, random) => value + either(random, 3, 12))),
  },
  {
    name: 'one side of a tent cut too wide',
    weaknesses: (f) =>
      each((i) =>
        numbers(f, 'parallel-fold', ['widths', i], (value, random) => value + between(random, 2, 12)),
      ),
  },
  {
    name: 'one foot of a tent glued elsewhere',
    weaknesses: (f) =>
      each((i) => numbers(f, 'parallel-fold', ['glue', i], (value, random) => value + either(random, 2, 9))),
  },
  {
    name: 'feet too far apart for the panels',
    weaknesses: (f) => dim(f, ['slack'], (_, random) => -between(random, 1, 8)),
  },
  {
    name: 'a tall part',
    weaknesses: (f) => [
      ...numbers(f, 'v-fold', ['ridge'], (value, random) => value * between(random, 1.5, 3)),
      ...dim(f, ['high', 'post', 'mast', 'tall'], (value, random) => value * between(random, 1.4, 2.6)),
    ],
  },
  {
    name: 'an arm too long',
    weaknesses: (f) => [
      ...dim(f, ['arm', 'neck', 'reach'], (value, random) => value * between(random, 1.8, 3.5)),
      ...numbers(
        f,
        'glued-piece',
        ['outline', 'polygon', 2, 0],
        (value, random) => value * between(random, 2, 4),
      ),
    ],
  },
  {
    name: 'an arm glued on at a wrong angle',
    weaknesses: (f) => [
      ...numbers(f, 'glued-piece', ['turn'], (value, random) => value + either(random, 40, 120)),
      ...dim(f, ['tilt', 'bow', 'rake'], (value, random) => value + either(random, 40, 120)),
    ],
  },
  {
    name: 'a corner too wide',
    weaknesses: (f) => [
      ...dim(f, ['peak'], (value, random) => value * between(random, 1.5, 2.5)),
      ...each((i) =>
        numbers(
          f,
          'v-fold',
          ['outlines', ['left', 'right'][i], 'polygon', 2, 1],
          (value, random) => value + between(random, 15, 45),
        ),
      ),
    ],
  },
  {
    name: 'a support too high for its plate',
    weaknesses: (f) => [
      ...dim(f, ['third'], (value, random) => value + between(random, 1.5, 5)),
      ...each((i) =>
        numbers(
          f,
          'plate',
          ['supports', 1, 'line', i, 1],
          (value, random) => value + between(random, 1.5, 5),
        ),
      ),
    ],
  },
  {
    name: 'a part in the wrong place',
    weaknesses: (f) => [
      ...numbers(f, 'v-fold', ['at'], (value, random) => value + between(random, 20, 110)),
      ...numbers(f, 'counter-fold', ['at'], (value, random) => value + between(random, 15, 60)),
    ],
  },
  {
    name: 'links too short for the way that they must go',
    weaknesses: (f) => dim(f, ['drop'], (_, random) => between(random, 0, 5)),
  },
  {
    name: 'a strut that does not fit',
    weaknesses: (f) => [
      ...partsOf(f, 'strut').map(({ at }) => ({
        place: [...at, 'height'],
        spoil: (random: Random) => measured(between(random, 15, 70)),
      })),
      ...each((i) =>
        numbers(f, 'strut', ['top', 'line', i, 1], (value, random) => value + either(random, 2, 8)),
      ),
    ],
  },
  {
    name: 'a floating panel too wide',
    weaknesses: (f) =>
      each((i) =>
        numbers(f, 'parallel-fold', ['layers', i], (value, random) => value * between(random, 2, 4)),
      ),
  },
  {
    name: 'a counter-fold that hardly swings',
    weaknesses: (f) => [
      ...numbers(f, 'counter-fold', ['diagonal'], (value, random) => value * between(random, 0.1, 0.4)),
      ...dim(f, ['beak', 'swing'], (value, random) => value * between(random, 0.1, 0.4)),
    ],
  },
  {
    name: 'a piece glued on in the wrong place',
    weaknesses: (f) =>
      partsOf(f, 'glued-piece').flatMap(({ at }) =>
        sides.map((axis) => ({
          place: [...at, 'at', axis],
          spoil: (random: Random) => measured(either(random, 15, 40)),
        })),
      ),
  },
];
