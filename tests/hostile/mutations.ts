import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { parse, stringify } from 'yaml';
import { patterns } from '../../src/figure/patterns/index.js';
import type { Json } from '../../src/figure/text/source.js';

/** Figure files that are sound, to be spoilt: the examples, the patterns, and those that tune is tried on. */
export function soundFigures(): readonly string[] {
  const folders = ['examples', 'examples/variants', 'tests/broken/bases', 'tests/hostile/figures'];
  const files = folders.flatMap((folder) =>
    readdirSync(folder)
      .filter((name) => name.endsWith('.yaml'))
      .sort()
      .map((name) => join(folder, name)),
  );
  return [...files.map((file) => readFileSync(file, 'utf8')), ...patterns.map(({ text }) => text)];
}

type Path = (string | number)[];

/** Every place in a figure's data. */
export function placesIn(value: Json, at: Path = []): Path[] {
  if (value === null || typeof value !== 'object') return [at];
  const inner = Array.isArray(value) ? [...value.entries()] : Object.entries(value);
  return [at, ...inner.flatMap(([name, part]) => placesIn(part, [...at, name]))];
}

/** The data with what stands at a place changed; undefined takes it out. */
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

/** What no figure file should hold. */
const HOSTILE: fc.Arbitrary<Json> = fc.oneof(
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
    'toString',
    'hasOwnProperty',
    'valueOf',
    'constructor(1)',
  ),
  fc.constantFrom<Json>(
    '../../x',
    '\u0007',
    'x'.repeat(5000),
    '=1+1',
    '<b>',
    '</script>',
    '…',
    '\u202egnp',
    'CON',
    '👩‍🎨',
  ),
  fc.string(),
  fc.double(),
  fc.jsonValue({ maxDepth: 3 }) as fc.Arbitrary<Json>,
);

/** Numbers that may well be read, and lie where geometry breaks down. */
const DEGENERATE: fc.Arbitrary<(was: number) => number> = fc.oneof(
  fc
    .constantFrom(0, 1e-9, 0.01, 1, 45, 60, 90, 120, 135, 179.999999, 180, 360, 1000, 10_000)
    .map((x) => () => x),
  fc.constantFrom(-1, 0.5, 2, 10, 1e-3, 1 + 1e-12, 1 - 1e-9).map((factor) => (was: number) => was * factor),
  fc.constantFrom(90, 180, 360).map((whole) => (was: number) => whole - was),
  fc.double({ min: -200, max: 200, noNaN: true }).map((x) => () => x),
  fc.integer({ min: -60, max: 60 }).map((d) => (was: number) => was + d),
);

interface Change {
  at: number;
  other: number;
  by: 'replace' | 'remove' | 'rename' | 'repeat' | 'swap';
  value: Json;
}
const anyPlace = fc.nat(1_000_000);
const spoiling: fc.Arbitrary<Change> = fc.record({
  at: anyPlace,
  other: anyPlace,
  by: fc.constantFrom('replace', 'remove', 'rename', 'repeat', 'swap'),
  value: HOSTILE,
});
/** Another number; the number that stands elsewhere, so that creases coincide and lengths are equal; or a part twice. */
type Bend = { at: number } & (
  | { by: 'other'; to: (was: number) => number }
  | { by: 'same'; as: number }
  | { by: 'twin' }
);
const bending: fc.Arbitrary<Bend> = fc.oneof(
  { weight: 4, arbitrary: fc.record({ at: anyPlace, by: fc.constant('other' as const), to: DEGENERATE }) },
  { weight: 2, arbitrary: fc.record({ at: anyPlace, by: fc.constant('same' as const), as: anyPlace }) },
  { weight: 1, arbitrary: fc.record({ at: anyPlace, by: fc.constant('twin' as const) }) },
);

const pick = <T>(items: readonly T[], place: number): T => items[place % items.length];

function spoilt(figure: Json, { at, other, by, value }: Change): Json {
  const places = placesIn(figure);
  const there = valueAt(figure, pick(places, other));
  const result = changed(figure, pick(places, at), (was) => {
    if (by === 'replace') return value;
    if (by === 'remove') return undefined;
    if (by === 'swap') return there;
    if (by === 'repeat') return Array.isArray(was) ? [...was, ...was] : [was, was];
    if (was === null || typeof was !== 'object' || Array.isArray(was)) return was;
    const [first, ...rest] = Object.entries(was);
    return first === undefined ? was : Object.fromEntries([[`${first[0]}s`, first[1]], ...rest]);
  });
  return result ?? null;
}

function bent(figure: Json, bend: Bend): Json {
  if (bend.by === 'twin') return withTwin(figure, bend.at);
  const places = placesIn(figure).filter((path) => typeof valueAt(figure, path) === 'number');
  if (places.length === 0) return figure;
  const to = bend.by === 'other' ? bend.to : () => valueAt(figure, pick(places, bend.as)) as number;
  return changed(figure, pick(places, bend.at), (was) => to(was as number)) ?? figure;
}

const valueAt = (figure: Json, path: Path): Json =>
  path.reduce<Json>((part, step) => (part as { [field: string]: Json })[step], figure);

/** With a second part like one of its parts, in the same place. */
function withTwin(figure: Json, at: number): Json {
  const { parts } = figure as { parts: { name: string }[] };
  const part = pick(parts, at);
  return {
    ...(figure as object),
    parts: [...parts, { ...part, name: `${part.name} again ${parts.length}` }],
  };
}

/** Figure files made from sound ones in which values are out of place: most are refused. */
export const spoiltFigure = (sound: readonly string[]): fc.Arbitrary<string> =>
  fc
    .tuple(fc.constantFrom(...sound), fc.array(spoiling, { minLength: 1, maxLength: 3 }))
    .map(([text, changes]) => stringify(changes.reduce(spoilt, parse(text) as Json)));

/** Figure files made from sound ones in which only numbers have changed: most can be read, and many are no figure. */
export const bentFigure = (sound: readonly string[]): fc.Arbitrary<string> =>
  fc
    .tuple(fc.constantFrom(...sound), fc.array(bending, { minLength: 1, maxLength: 3 }))
    .map(([text, changes]) => stringify(changes.reduce(bent, parse(text) as Json)));

const LETTERS = fc.constantFrom(
  ...'[]{}:,-?&*!|>%@`"\'#\n\t 0e.~',
  '\r\n',
  '\r',
  '\u0085',
  '\u2028',
  '\ufeff',
  '  ',
  '- ',
  ': ',
  '{ ',
  '\u0000',
  '\ud800',
  '…',
  '&a ',
  '*a',
  '<<: ',
  '!!js/function ',
  '.inf',
  '.nan',
  '0x7fffffff',
  '9'.repeat(400),
);

/** Figure files made from sound ones in which letters were struck out or put in. */
export const scribbledFigure = (sound: readonly string[]): fc.Arbitrary<string> =>
  fc
    .tuple(
      fc.constantFrom(...sound),
      fc.array(
        fc.record({ at: fc.nat(1_000_000), cut: fc.nat(6), put: fc.array(LETTERS, { maxLength: 4 }) }),
        {
          minLength: 1,
          maxLength: 4,
        },
      ),
    )
    .map(([text, edits]) =>
      edits.reduce((now, { at, cut, put }) => {
        const from = at % now.length;
        return now.slice(0, from) + put.join('') + now.slice(from + cut);
      }, text),
    );
