import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse, parseDocument } from 'yaml';
import { compileFigure } from '../../src/figure/figure.js';
import { InputError } from '../../src/figure/text/input-error.js';
import { type Json, parseFigure } from '../../src/figure/text/source.js';
import { Scorer } from '../../src/score/scorer.js';
import { type Random, stream } from '../../src/search/random.js';
import { inlined } from './inlined.js';
import { type Place, valueAt } from './ways.js';

/** One fault of three: what kind it is of, and where. */
export interface Fault {
  readonly kind: string;
  readonly place: Place;
  readonly from: Json;
  readonly to: number | string;
}

/** A figure of twenty panels or more, that worked before three of its values were spoilt. */
export interface Spoilt {
  readonly text: string;
  readonly panels: number;
  readonly faults: readonly Fault[];
}

/** Figures of scenes that stand alone; with a limb on hubs and an arm in a slot; with tabs that lie close to one another. */
export type Sort = 'plain' | 'limbs' | 'tabs';

/** Figures that stand on the gutter alone, or whose places on a page are told, so that several fit on one page, one behind the other. */
const SCENES = ['table', 'stall', 'gate', 'harbour', 'roof'] as const;
type Fields = { [field: string]: Json };

/** What a figure is put together of: some scenes that it always has, others by chance, limits, and faults that are drawn first. */
const SORTS: Record<
  Sort,
  { label: string; always: readonly string[]; others: number; limits: Fields; first: readonly string[] }
> = {
  plain: { label: 'figure', always: [], others: 3, limits: { pile: 4, flatWhenOpen: 'no' }, first: [] },
  limbs: {
    label: 'limbs',
    always: ['knee', 'sleeve'],
    others: 1,
    limits: { pile: 5, press: 1, creaseOnCard: 60, flatWhenOpen: 'no' },
    first: ['a link too short', 'a slot too small'],
  },
  tabs: {
    label: 'tabs',
    always: ['barn'],
    others: 2,
    limits: { pile: 4, flatWhenOpen: 'no' },
    first: ['a tab on the wrong side'],
  },
};
/** Along the gutter, mm, that each is given: as high as its own page. */
const ROOM = 210;
const LEAST_PANELS = 20;
const SEED = 11;

/** The figures, drawn by chance from one seed, the same each time; with the faults that only figures of their sort have. */
export function* threeFaults(count: number, sort: Sort = 'plain'): Generator<Spoilt> {
  for (let number = 0, drawn = 0; drawn < count; number++) {
    const spoilt = spoiltFigure(stream(SEED, `${SORTS[sort].label} ${number}`), sort);
    if (spoilt === null) continue;
    drawn++;
    yield spoilt;
  }
}

function spoiltFigure(random: Random, sort: Sort): Spoilt | null {
  const { always, others, limits, first } = SORTS[sort];
  const scenes = [...always, ...random.shuffle([...SCENES]).slice(0, others)];
  const sound = together(
    scenes.map((scene) => drawnFrom(scene, random)),
    limits,
  );
  const text = JSON.stringify(sound);
  const figure = compileFigure(parseFigure(text, 'sound.yaml'));
  const panels = figure.build(figure.start).panels.length;
  if (panels < LEAST_PANELS || failing(text) !== 'works') return null;
  const faults: Fault[] = [];
  const document = parseDocument(text);
  const kinds = random.shuffle([...KINDS]);
  kinds.sort((a, b) => Number(first.includes(b.kind)) - Number(first.includes(a.kind)));
  for (const { kind, places, spoil } of kinds) {
    if (faults.length === 3) break;
    for (const place of random.shuffle(places(sound)).slice(0, sort === 'limbs' ? 12 : 4)) {
      if (faults.some((other) => other.place.join() === place.join())) continue;
      const from = valueAt(sound, place) ?? null;
      const to = spoil(from, random);
      // Each is a fault by itself.
      const alone = parseDocument(text);
      alone.setIn(place, to);
      if (failing(alone.toString()) !== 'fails') continue;
      document.setIn(place, to);
      faults.push({ kind, place, from, to });
      break;
    }
  }
  const broken = document.toString({ lineWidth: 110 });
  return faults.length === 3 && failing(broken) === 'fails' ? { text: broken, panels, faults } : null;
}

function failing(text: string): 'works' | 'fails' | 'refused' {
  try {
    const figure = compileFigure(parseFigure(text, 'drawn.yaml'));
    return new Scorer(figure).score(figure.start).works ? 'works' : 'fails';
  } catch (error) {
    if (error instanceof InputError) return 'refused';
    throw error;
  }
}

/** A base with dims that work, every number in its place, none tied to another. */
function drawnFrom(scene: string, random: Random): Fields {
  const source = parseFigure(readFileSync(join('tests/broken/bases', `${scene}.yaml`), 'utf8'), scene);
  const figure = compileFigure(source);
  const scorer = new Scorer(figure);
  for (let attempt = 0; attempt < 100; attempt++) {
    const vector = Float64Array.from(figure.free, (dim) =>
      dim.kind === 'choice'
        ? random.below(dim.options.length)
        : Math.round(2 * (dim.min + (dim.max - dim.min) * random.next())) / 2,
    );
    if (scorer.score(vector).works) return inlined(parse(figure.toYaml(vector)));
  }
  return inlined(parse(figure.toYaml(figure.start)));
}

/** Several figures on one page, one behind the other along the gutter. */
function together(figures: readonly Fields[], limits: Fields): Fields {
  const named = figures.map((figure, i) => renamed(figure, `${'abc'[i]} `));
  const parts = named.flatMap((figure, i) =>
    (figure.parts as Fields[]).map((part) =>
      (part.on ?? 'gutter') === 'gutter' && typeof part.at === 'number' && part.kind !== 'counter-fold'
        ? { ...part, at: part.at + i * ROOM }
        : part.kind === 'tongue'
          ? { ...part, slit: movedUp(part.slit as Fields, i * ROOM) }
          : part,
    ),
  );
  return {
    figure: 'three scenes',
    page: { width: 148, height: ROOM * figures.length },
    parts,
    wants: named.flatMap(({ wants }) => wants as Json[]),
    limits,
  };
}

/** A slit in a page, farther along the gutter. */
const movedUp = (slit: Fields, by: number): Fields => ({
  ...slit,
  line: (slit.line as number[][]).map(([x, y]) => [x, y + by]),
});

/** A figure with another beginning for the names of its parts and wants, wherever they stand. */
function renamed(figure: Fields, before: string): Fields {
  const names = (figure.parts as Fields[]).map(({ name }) => String(name));
  const walk = (value: Json, field: string): Json => {
    if (Array.isArray(value)) return value.map((inner) => walk(inner, field));
    if (value !== null && typeof value === 'object')
      return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, walk(inner, name)]));
    if (typeof value !== 'string' || field === 'kind') return value;
    const part = names.some((name) => value === name || value.startsWith(`${name} `));
    return part || field === 'name' ? `${before}${value}` : value;
  };
  return walk(figure, '') as Fields;
}

const partsOf = (figure: Fields, ...kinds: string[]) =>
  (figure.parts as Fields[]).flatMap((part, i) =>
    kinds.includes(String(part.kind)) ? [{ part, at: ['parts', i] as Place }] : [],
  );
const half = (value: number) => Math.round(2 * value) / 2;
const between = (random: Random, low: number, high: number) => low + (high - low) * random.next();

/** Kinds of faults: which values of a figure may have it, and what they are spoilt to. */
const KINDS: readonly {
  readonly kind: string;
  places(figure: Fields): Place[];
  spoil(from: Json, random: Random): number | string;
}[] = [
  {
    kind: 'a part misplaced',
    places: (figure) =>
      partsOf(figure, 'v-fold', 'parallel-fold', 'glued-piece').flatMap(({ part, at }) =>
        typeof part.at === 'number'
          ? [[...at, 'at']]
          : [
              [...at, 'at', 0],
              [...at, 'at', 1],
            ],
      ),
    spoil: (from, random) => half(Number(from) + between(random, 15, 60) * (random.next() < 0.5 ? -1 : 1)),
  },
  {
    kind: 'a sense turned',
    places: (figure) =>
      partsOf(figure, 'v-fold').flatMap(({ at }) => [
        [...at, 'points'],
        [...at, 'toward'],
      ]),
    spoil: (from) => ({ in: 'out', out: 'in', end: 'start', start: 'end' })[String(from)] ?? 'out',
  },
  {
    kind: 'a side too short',
    places: (figure) => [
      ...partsOf(figure, 'v-fold').flatMap(({ at }) => [
        [...at, 'panels', 0],
        [...at, 'panels', 1],
      ]),
      ...partsOf(figure, 'parallel-fold').flatMap(({ part, at }) =>
        part.widths === undefined ? [] : [[...at, 'widths', 0]],
      ),
    ],
    spoil: (from, random) => half(Number(from) - between(random, 3, 10)),
  },
  {
    kind: 'a tab on the wrong side',
    places: (figure) => partsOf(figure, 'v-fold', 'parallel-fold').map(({ at }) => [...at, 'tab', 'side']),
    spoil: (from) => (from === 'outer' ? 'inner' : 'outer'),
  },
  {
    kind: 'a slot too small',
    places: (figure) =>
      partsOf(figure, 'slot').flatMap(({ at }) => [
        [...at, 'outline', 2, 0],
        [...at, 'outline', 2, 1],
      ]),
    spoil: (from, random) => half(Number(from) - between(random, 3, 8)),
  },
  {
    kind: 'a link too short',
    places: (figure) => partsOf(figure, 'tongue').map(({ at }) => [...at, 'at', 0]),
    spoil: (from, random) => half(Number(from) - between(random, 8, 20)),
  },
  {
    kind: 'a part too long',
    places: (figure) => [
      ...partsOf(figure, 'v-fold').map(({ at }): Place => [...at, 'ridge']),
      ...partsOf(figure, 'glued-piece').map(({ at }): Place => [...at, 'outline', 'polygon', 1, 0]),
    ],
    spoil: (from, random) => half(Number(from) * between(random, 1.5, 3)),
  },
];
