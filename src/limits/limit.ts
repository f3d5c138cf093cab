import * as z from 'zod';
import type { Finding, Unknown } from './finding.js';
import type { Measured } from './measured.js';

/** What a figure has that not all have. */
export interface Has {
  readonly keepClear: boolean;
  readonly chains: boolean;
  readonly slots: boolean;
  readonly flatPieces: boolean;
}

/** The most that something may be; or the least, where it must be more than that. */
export type Bound = { readonly most: number } | { readonly least: number };

/** How much it is, with what was found where it is not nothing; or why that can't be told. */
export type LimitReading =
  | { readonly value: number; readonly finding: Omit<Finding, 'value' | 'unit'> | null }
  | { readonly unknown: Unknown }
  /** Where a figure has nothing that could break it. */
  | 'nothing to judge';

/** Something that every dummy must keep to. `Given` is what a figure file may say under `limits`, each with its default. */
export interface Limit<Given> {
  readonly name: string;
  readonly unit: string;
  /** What counts as one unit of violation, in its own unit. */
  readonly scale: number;
  /** The least violation where it is broken at all, in units of violation. */
  readonly leastExcess?: number;
  /** How much more a dummy that is cut by hand may have, whose card gives way (see `src/card/gives-way.ts`). */
  readonly givesWay?: number;
  /** Whether it takes more to look at than how the figure moves and lies shut: a dummy that fails by that is spared it. */
  readonly late?: true;
  /** Whether a figure has this limit at all. */
  applies?(given: Given, has: Has): boolean;
  bound(given: Given): Bound;
  measure(measured: Measured, given: Given): LimitReading;
}

/** A limit and the fields of the figure file that it reads. */
export interface DeclaredLimit<Fields extends z.ZodRawShape>
  extends Limit<{ readonly [Name in keyof Fields]: z.output<Fields[Name]> }> {
  readonly fields: Fields;
}

/** Declares a limit; its functions see what its own fields hold. */
export const declareLimit = <Fields extends z.ZodRawShape>(
  limit: DeclaredLimit<Fields>,
): DeclaredLimit<Fields> => limit;

/** A field of `limits`: a number from 0 up, with its default. */
export const upTo = (most: number, usual: number) => z.number().min(0).max(most).prefault(usual);
/** The same for lengths: as long as any page. */
export const mm = (usual: number) => upTo(1000, usual);

/** Degrees, and mm² of glue, that count as one unit of violation; for lengths it is 1 mm. */
export const DEGREE_SCALE = 10;
export const GLUE_SCALE = 10;

/**
 * What a drawing must keep to so that card holds and lies well; a dummy that was cut by hand from a drawing that does is
 * not weighed again by the hair that its knife was off.
 */
export const ASKED_OF_THE_DRAWING = Number.POSITIVE_INFINITY;

/** Nothing found. */
export const NOTHING: LimitReading = { value: 0, finding: null };

/** What can be told only of a page that moves: one that locks before it has opened flat never does. */
export function moving<Given>(measure: Limit<Given>['measure']): Limit<Given>['measure'] {
  return (measured, given) =>
    measured.moves
      ? measure(measured, given)
      : { unknown: { because: 'it never opens flat', pageAngle: measured.lock?.pageAngle ?? 180 } };
}

/** What can be told only of the shut book. */
export function whenShut<Given>(
  measure: (shut: NonNullable<Measured['shut']>, given: Given) => LimitReading,
): Limit<Given>['measure'] {
  return ({ shut, lock }, given) =>
    shut === null
      ? { unknown: { because: 'it never shuts', pageAngle: lock?.pageAngle ?? 180 } }
      : measure(shut, given);
}

/** What is so of a whole figure, or a panel of it, at one page angle. */
export const found = (
  kind: Finding['kind'],
  panels: readonly (string | null)[],
  pageAngle: number | null,
  place: Finding['place'] = null,
  part: string | null = null,
): Omit<Finding, 'value' | 'unit'> => ({
  kind,
  panels: panels.filter((panel) => panel !== null),
  part,
  pageAngle,
  place,
});
