import type { Move } from './moves.js';
import type { OpenedFigure } from './opened.js';
import type { Setting } from './settings.js';

/** A move with how far it goes: mm or degrees; 1 for words. */
export interface Done {
  readonly move: Move;
  readonly amount: number;
}

/** A maker measures to half a millimetre or half a degree. */
export const MEASURE = 0.5;
/** What a word costs that is changed: as much as so many mm or degrees. */
const WORD_AMOUNT = 10;

const isOfOutline = ({ ties }: Pick<Move, 'ties'>): boolean =>
  ties.some(({ because }) => because === 'edge' || because === 'moved' || because === 'larger');

/** The candidate that comes of moves; null where one goes beyond its bounds, or two do not go together. */
export function apply(opened: OpenedFigure, done: readonly Done[]): Float64Array | null {
  const vector = opened.now.slice();
  for (const { move, amount } of done)
    for (const { setting, by } of move.steps) {
      if (move.kind === 'word') {
        vector[setting] = by;
        continue;
      }
      const grain = isOfOutline(move) ? 100 : 1e4;
      vector[setting] = Math.round(grain * (vector[setting] + by * amount)) / grain;
      const { low, high } = opened.settings[setting].bounds;
      if (vector[setting] < low || vector[setting] > high) return null;
    }
  return vector;
}

/** An amount such that the first number that a move changes can be measured; towards zero or away from it. */
export function measurable(
  settings: readonly Setting[],
  { steps, kind, ties }: Move,
  amount: number,
  step = MEASURE,
): number {
  if (kind === 'word') return amount;
  const [{ setting, by }] = steps;
  const { now, step: own = step } = settings[setting];
  // Askew, an edge goes as far as can be measured square to itself.
  if (isOfOutline({ ties })) return Math.round(amount / step) * step;
  const value = Math.round((Number(now) + by * amount) / own) * own;
  return (value - Number(now)) / by;
}

/** What changes cost, the less the better, the first before the second: */
export interface Cost {
  /** the price of each dim that is changed; */
  readonly price: number;
  /** how far they go, mm and degrees alike, each times its price; */
  readonly amount: number;
  /** in how many places left and right, or the ends of a line, are then unlike; */
  readonly odd: number;
  /** how many parts they reach, those that stand on a changed part among them. */
  readonly reach: number;
}

/** What a setting costs to change, what it reaches, and how odd a candidate is. */
export interface Tariff {
  priceOf(setting: number): number;
  oddIn(vector: Float64Array): number;
  partsOf(setting: number): ReadonlySet<string>;
}

export function costOf(
  done: readonly Done[],
  vector: Float64Array,
  { priceOf, oddIn, partsOf }: Tariff,
): Cost {
  const dear = ({ steps }: Move) => Math.max(...steps.map(({ setting }) => priceOf(setting)));
  return {
    price: done.reduce((sum, { move }) => sum + move.dims * dear(move), 0),
    amount: done.reduce((sum, each) => sum + dear(each.move) * distance(each), 0),
    odd: oddIn(vector),
    reach: new Set(done.flatMap(({ move }) => move.steps.flatMap(({ setting }) => [...partsOf(setting)])))
      .size,
  };
}

/** How far a move goes, mm or degrees: of several numbers the one that goes farthest. */
export function distance({ move, amount }: Done): number {
  if (move.kind === 'word') return WORD_AMOUNT;
  return Math.abs(amount) * Math.max(...move.steps.map(({ by }) => Math.abs(by)));
}

export const cheaper = (a: Cost, b: Cost): number =>
  a.price - b.price || nearly(a.amount - b.amount) || a.odd - b.odd || a.reach - b.reach;

/** Differences that come of round-off are none. */
const nearly = (difference: number): number => (Math.abs(difference) < 1e-3 ? 0 : difference);

/** Whether a move changes anything that was changed already. */
export const overlaps = (move: Move, done: readonly Done[]): boolean =>
  done.some((each) =>
    each.move.steps.some(({ setting }) => move.steps.some((step) => step.setting === setting)),
  );
