import { SIDES } from '../figure/hand/cut-names.js';
import type { Path } from '../figure/text/input-error.js';
import type { OpenedFigure } from './opened.js';
import { type Relating, relating } from './relating.js';
import { type RingMove, ringMoves } from './ring-moves.js';
import type { Setting } from './settings.js';

/** Why several settings are moved as one. */
export type Tie =
  /** Equal numbers, or words, in places that mirror one another: probably one dim. */
  | { readonly because: 'equal'; readonly settings: readonly number[] }
  /** Corners of one outline: an edge, or a slot that is moved or made wider as a whole. */
  | { readonly because: RingMove['because']; readonly settings: readonly number[] }
  /** A part would not shut flat if one were moved alone. */
  | { readonly because: 'shuts'; readonly settings: readonly number[]; readonly part: string };

/** One thing that a maker could do: a number moved, a word changed, or several together where they are tied. */
export interface Move {
  /** Settings with how far each goes for an amount of 1, mm or degrees; for words, with the option they turn to. */
  readonly steps: readonly { readonly setting: number; readonly by: number }[];
  readonly kind: 'number' | 'word';
  /** How many dims it changes: several that are tied as equal count as one. */
  readonly dims: number;
  readonly ties: readonly Tie[];
  /** Amounts worth trying before all others: at which it is as its twins are, */
  readonly like: readonly number[];
  /** and at which a part fits so that it shuts, or lies flat when open. */
  readonly fitting: readonly number[];
  /** Those of them at which a part shuts that could not. */
  readonly shutting: readonly number[];
}

/** Everything that could be done to a figure, none of it to a setting that is held. */
export function movesOf(
  opened: OpenedFigure,
  isHeld: (setting: number) => boolean,
  relations = relating(opened),
): Move[] {
  const { settings } = opened;
  const groups = equalGroups(settings);
  const units: Unit[] = [
    ...settings.map((_, i) => ({ settings: [i], tie: null })),
    ...groups.map((group): Unit => ({ settings: group, tie: { because: 'equal', settings: group } })),
  ].filter((unit) => !unit.settings.some(isHeld));
  const numbers = units.filter(({ settings: [first] }) => settings[first].kind === 'number');
  const words = units.filter(({ settings: [first] }) => settings[first].kind === 'word');
  const free = numbers.filter((unit) => relations.keeps(stepsOf(unit)));
  const tied = numbers.filter((unit) => !relations.keeps(stepsOf(unit)));
  const outlines = ringMoves(opened).filter(({ steps }) => !steps.some(({ setting }) => isHeld(setting)));
  return [
    ...words.flatMap((unit) => wordMoves(settings, unit)),
    ...outlines.map(outlineMove),
    ...free.map((unit) => numberMove(opened, relations, unit)),
    ...pairsThatShut(relations, tied, groups),
  ];
}

/** Settings that move as one: one alone, or several equal ones. */
interface Unit {
  readonly settings: readonly number[];
  readonly tie: Tie | null;
}

const stepsOf = ({ settings }: Unit, by = 1) => settings.map((setting) => ({ setting, by }));
const tiesOf = (...units: Unit[]): Tie[] => units.flatMap(({ tie }) => tie ?? []);

function wordMoves(settings: readonly Setting[], unit: Unit): Move[] {
  const { options, now } = settings[unit.settings[0]];
  return options.flatMap((option, place): Move[] =>
    option === now
      ? []
      : [
          {
            steps: stepsOf(unit, place),
            kind: 'word',
            dims: 1,
            ties: tiesOf(unit),
            like: [],
            fitting: [1],
            shutting: [],
          },
        ],
  );
}

function outlineMove({ because, steps }: RingMove): Move {
  const tie: Tie = { because, settings: steps.map(({ setting }) => setting) };
  return { steps, kind: 'number', dims: 1, ties: [tie], like: [], fitting: [], shutting: [] };
}

function numberMove({ settings }: OpenedFigure, relations: Relating, unit: Unit): Move {
  const now = Number(settings[unit.settings[0]].now);
  const shutting = distinct(relations.shutting(stepsOf(unit)));
  const like = unit.tie === null ? valuesLike(settings, unit.settings[0]) : [];
  return {
    steps: stepsOf(unit),
    kind: 'number',
    dims: 1,
    ties: tiesOf(unit),
    like: distinct(like.map((value) => value - now)),
    fitting: distinct([...shutting, ...relations.flattening(stepsOf(unit))]),
    shutting,
  };
}

/** Two units that each would keep a part from shutting, and together do not. */
function pairsThatShut(
  relations: Relating,
  units: readonly Unit[],
  groups: readonly (readonly number[])[],
): Move[] {
  const moves: Move[] = [];
  // Two equal ones that move alike are one dim, and are there already.
  const isGroup = (a: Unit, b: Unit) =>
    groups.some((group) => group.join() === [...a.settings, ...b.settings].join());
  for (const [i, a] of units.entries())
    for (const b of units.slice(i + 1)) {
      if (a.settings.some((setting) => b.settings.includes(setting))) continue;
      for (const by of [1, -1, 2, -2, 0.5, -0.5]) {
        if (by === 1 && isGroup(a, b)) continue;
        const steps = [...stepsOf(a), ...stepsOf(b, by)];
        const part = relations.sharedPart(stepsOf(a), stepsOf(b));
        if (part === null || !relations.keeps(steps)) continue;
        const tie: Tie = { because: 'shuts', settings: steps.map(({ setting }) => setting), part };
        moves.push({
          steps,
          kind: 'number',
          dims: 2,
          ties: [...tiesOf(a, b), tie],
          like: [],
          fitting: [],
          shutting: [],
        });
      }
    }
  return moves;
}

/**
 * Groups of settings of parts that hold the same value in places that mirror one another: the two sides of one part,
 * then the same and its twins, parts of the same kind.
 */
function equalGroups(settings: readonly Setting[]): number[][] {
  const groups = new Map<string, number[]>();
  for (const key of [mirrorKey, twinKey])
    settings.forEach((setting, i) => {
      if (setting.place[0] === 'dims') return;
      const group = `${key(setting)} ${setting.now}`;
      groups.set(group, [...(groups.get(group) ?? []), i]);
    });
  const several = [...groups.values()].filter((group) => group.length > 1);
  return [...new Map(several.map((group) => [group.join(), group])).values()];
}

/** Counts how many different numbers a candidate has in places that mirror one another: within a part, and in its twins. */
export function oddness(settings: readonly Setting[]): (vector: Float64Array) => number {
  const groups = new Map<string, number[]>();
  for (const key of [mirrorKey, twinKey])
    settings.forEach((setting, i) => {
      if (setting.place[0] === 'dims' || setting.kind === 'word') return;
      const group = key(setting);
      groups.set(group, [...(groups.get(group) ?? []), i]);
    });
  const several = [...groups.values()].filter((group) => group.length > 1);
  return (vector) => several.reduce((sum, group) => sum + new Set(group.map((i) => vector[i])).size - 1, 0);
}

/** Values of settings in places like a setting's own, other than its own value. */
function valuesLike(settings: readonly Setting[], own: number): number[] {
  const key = twinKey(settings[own]);
  return settings
    .filter((setting) => setting.kind === 'number' && setting.place[0] !== 'dims' && twinKey(setting) === key)
    .map(({ now }) => Number(now));
}

/** The same for settings that mirror one another within a part. */
const mirrorKey = ({ place }: Setting): string => `${place[1]} ${mirrored(place)}`;

/** The same for settings that mirror one another within parts of one kind. */
const twinKey = ({ place, twins }: Setting): string => `${twins} ${mirrored(place)}`;

/** A place without what tells left from right, end from end of a line, and support from support. */
function mirrored(place: Path): string {
  return place
    .slice(2)
    .map((step, i, steps) => {
      const before = steps[i - 1];
      if (step === 'left' || step === 'right') return '*';
      if (
        typeof step === 'number' &&
        (SIDES.has(String(before)) || before === 'line' || before === 'supports')
      )
        return '*';
      return step;
    })
    .join('.');
}

const distinct = (amounts: readonly number[]): number[] =>
  [...new Set(amounts.map((amount) => Math.round(1e6 * amount) / 1e6))].filter((amount) => amount !== 0);
