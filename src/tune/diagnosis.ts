import type { Goal } from '../figure/wants.js';
import type { LimitScore } from '../limits/judge.js';
import type { Meeting } from '../motion/misfit.js';
import type { Scorecard, WantScore } from '../score/scorecard.js';
import type { BuiltPart } from './opened.js';
import { type ShutRelation, shutRelations } from './shut-relations.js';

/** One thing that is wrong with a figure. Lengths in mm, page angles in degrees. */
export type Trouble =
  | { readonly kind: 'no card'; readonly reason: string }
  | {
      readonly kind: 'stops';
      readonly pageAngle: number;
      readonly part: string;
      /** What does not meet beyond it. */
      readonly at: Meeting;
    }
  | { readonly kind: 'does not fit'; readonly relation: ShutRelation }
  | {
      readonly kind: 'catches';
      readonly between: readonly [string, string];
      readonly depth: number;
      /** Where closing makes them meet, and where they are deepest in one another. */
      readonly startsAt: number;
      readonly worstAt: number;
    }
  | {
      readonly kind: 'binds';
      readonly at: Meeting;
      readonly misfit: number;
      readonly startsAt: number;
      readonly worstAt: number;
    }
  | { readonly kind: 'pokes out'; readonly part: string; readonly out: number; readonly worstAt: number }
  | { readonly kind: 'limit'; readonly limit: LimitScore }
  | { readonly kind: 'misses'; readonly want: WantScore; readonly goal: Goal };

/**
 * What is wrong with a figure, in the order of cause: first folds whose own numbers do not fit; then the motion is
 * followed from the open page, and what goes wrong first stands first; then how it lies when shut, and last what it
 * should do and does not. What follows from its getting stuck is left out.
 */
export function diagnose(goals: readonly Goal[], card: Scorecard, parts: readonly BuiltPart[]): Trouble[] {
  if (card.cannotBuild !== null) return [{ kind: 'no card', reason: card.cannotBuild }];
  const { locks, clash, bind, book, limits, wants } = card;
  const broken = new Set(limits.filter(({ met }) => !met).map(({ name }) => name));
  const onTheWay: { at: number; trouble: Trouble }[] = [];
  if (locks !== null)
    onTheWay.push({
      at: locks.pageAngle,
      trouble: { kind: 'stops', ...locks },
    });
  if (broken.has('catch') && clash.between !== null && clash.deepest !== null && clash.pageAngle !== null) {
    const startsAt = clash.firstPageAngle ?? clash.pageAngle;
    const { between, deepest: depth, pageAngle: worstAt } = clash;
    onTheWay.push({ at: startsAt, trouble: { kind: 'catches', between, depth, startsAt, worstAt } });
  }
  if (broken.has('give') && bind.at !== null && bind.misfit !== null && bind.pageAngle !== null) {
    const { at, misfit, pageAngle: worstAt } = bind;
    const startsAt = bind.firstPageAngle ?? worstAt;
    onTheWay.push({ at: startsAt, trouble: { kind: 'binds', at, misfit, startsAt, worstAt } });
  }
  if (broken.has('outside') && book.part !== null && book.out !== null && book.pageAngle !== null)
    onTheWay.push({
      at: book.pageAngle,
      trouble: { kind: 'pokes out', part: book.part, out: book.out, worstAt: book.pageAngle },
    });
  const told = new Set(['shuts', 'catch', 'give', 'outside']);
  // What is not known because the figure never gets there is no trouble of its own.
  const rest = limits.filter(({ name, met, value }) => !met && value !== null && !told.has(name));
  return [
    ...mismatches(parts, locks?.part),
    ...onTheWay.sort((a, b) => b.at - a.at).map(({ trouble }) => trouble),
    ...rest.map((limit): Trouble => ({ kind: 'limit', limit })),
    ...wants.flatMap((want, i): Trouble[] =>
      want.met || (locks !== null && want.value === null) ? [] : [{ kind: 'misses', want, goal: goals[i] }],
    ),
  ];
}

/** As far as folds differ that fit, degrees or mm. */
const FITS = 0.05;

/**
 * Folds whose own numbers keep them from shutting: those that stand over the gutter, and the one that locks. Others may
 * stand on a crease that never shuts.
 */
function mismatches(parts: readonly BuiltPart[], locking: string | undefined): Trouble[] {
  const bears = parts.filter(
    ({ name, fields }) => (fields as { on?: string }).on === 'gutter' || name === locking,
  );
  return shutRelations(bears)
    .filter(({ shuts, open }) => open < -FITS || Math.abs(shuts) >= FITS)
    .map((relation) => ({ kind: 'does not fit', relation }));
}
