import type { OpenedFigure } from './opened.js';
import { type ShutRelation, shutRelations } from './shut-relations.js';

type Steps = readonly { readonly setting: number; readonly by: number }[];

/** What moves do to the relations by which parts shut (see `shutRelations`). */
export interface Relating {
  /** Whether every part that could shut still can, and lies flat when open if it did and must. */
  keeps(steps: Steps): boolean;
  /** Amounts of a move at which a part that could not shut can. */
  shutting(steps: Steps): number[];
  /** Amounts of a move at which a part can lie flat when open. */
  flattening(steps: Steps): number[];
  /** A part whose relations two moves both touch; null if there is none. */
  sharedPart(a: Steps, b: Steps): string | null;
  /** For each setting, the parts whose fields it changes. */
  readonly touches: readonly ReadonlySet<string>[];
}

/** Angles and lengths nearer than this, degrees or mm, are as good as equal. */
const SAME = 1e-6;
/** How far settings are nudged. The relations are linear, or nearly so. */
const NUDGE = 0.01;

/**
 * Nudges each setting once, and sees what follows.
 * @param near a candidate that can be built: of one that cannot, the parts are not known that come after what has no place
 */
export function relating(opened: OpenedFigure, near = opened.now): Relating {
  const { settings, now } = opened;
  const before = opened.fieldsOf(near);
  const texts = new Map(before.map(({ name, fields }) => [name, JSON.stringify(fields)]));
  const asTheyAre = new Map(opened.fieldsOf(now).map((part) => [part.name, part]));
  const relations = shutRelations(before.map((part) => asTheyAre.get(part.name) ?? part));
  const nearby = shutRelations(before);
  const touches: Set<string>[] = [];
  /** For each setting, how much each relation changes by 1 of it. */
  const slopes = settings.map(({ kind, options }, i) => {
    const vector = near.slice();
    vector[i] = kind === 'number' ? near[i] + NUDGE : (near[i] + 1) % options.length;
    const after = opened.fieldsOf(vector);
    touches.push(
      new Set(
        after
          .filter(({ name, fields }) => texts.get(name) !== JSON.stringify(fields))
          .map(({ name }) => name),
      ),
    );
    return kind === 'number' ? slopesBetween(nearby, shutRelations(after)) : relations.map(() => STILL);
  });
  const flat = opened.figure.limits.flatWhenOpen === 'yes';

  const slopeOf = (steps: Steps, relation: number): Slope => {
    const sum = (of: (slope: Slope) => number) =>
      steps.reduce((total, { setting, by }) => total + by * of(slopes[setting][relation]), 0);
    return { shuts: sum(({ shuts }) => shuts), open: sum(({ open }) => open) };
  };
  return {
    touches,
    keeps: (steps) =>
      relations.every(({ shuts, open }, relation) => {
        const slope = slopeOf(steps, relation);
        const stays = (value: number, by: number) => Math.abs(value) >= SAME || isStill(by);
        return stays(shuts, slope.shuts) && (!flat || stays(open, slope.open));
      }),
    shutting: (steps) =>
      relations.flatMap(({ shuts }, relation) => zeroOf(shuts, slopeOf(steps, relation).shuts)),
    flattening: (steps) =>
      relations.flatMap(({ open }, relation) => zeroOf(open, slopeOf(steps, relation).open)),
    sharedPart(a, b) {
      const touched = (steps: Steps, relation: number) => {
        const { shuts, open } = slopeOf(steps, relation);
        return !(isStill(shuts) && isStill(open));
      };
      const shared = relations.findIndex((_, relation) => touched(a, relation) && touched(b, relation));
      return shared < 0 ? null : relations[shared].part;
    },
  };
}

interface Slope {
  readonly shuts: number;
  readonly open: number;
}

const STILL: Slope = { shuts: 0, open: 0 };
/** The amount at which what has a value and a slope is 0; none where it does not change. */
const zeroOf = (value: number, slope: number): number[] => (isStill(slope) ? [] : [-value / slope]);
const isStill = (slope: number): boolean => Math.abs(slope) < 1e-6;

function slopesBetween(before: readonly ShutRelation[], after: readonly ShutRelation[]): Slope[] {
  return before.map(({ part, shuts, open }) => {
    const then = after.find((each) => each.part === part);
    if (then === undefined) return STILL;
    return { shuts: (then.shuts - shuts) / NUDGE, open: (then.open - open) / NUDGE };
  });
}
