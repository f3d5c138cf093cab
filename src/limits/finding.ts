import type { Meeting } from '../motion/misfit.js';

/** What can be found of a figure that it should not be; only `report` makes words of it. */
export type FindingKind =
  | 'locks'
  | 'catches'
  | 'does not meet'
  | 'leaves the pages'
  | 'stands off'
  | 'sticks out'
  | 'piles up'
  | 'is glued badly'
  | 'enters a space'
  | 'is hard to shut'
  | 'is hard to open'
  | 'is strained'
  | 'tilts'
  | 'jumps'
  | 'does not stand'
  | 'does not pass'
  | 'runs past a slot'
  | 'crowds a slot'
  | 'hinges on air'
  | 'hangs by little'
  | 'marks no card'
  | 'holds too little'
  | 'is too narrow';

/** Something found: what, of which panels, where, at which page angle and how much. */
export interface Finding {
  readonly kind: FindingKind;
  /** Names of the panels concerned, the one at fault first; empty where it is the whole figure. */
  readonly panels: readonly string[];
  /** The part whose joint is concerned, where it is a joint; else null. */
  readonly part: string | null;
  /** Degrees; null where it is so at every page angle. */
  readonly pageAngle: number | null;
  readonly place: Place | null;
  readonly value: number;
  readonly unit: string;
}

/** Where something was found. */
export type Place =
  /** On each of the panels, as a figure file has it, mm. */
  | { readonly points: readonly (readonly [number, number])[] }
  /** At a joint that does not meet. */
  | { readonly joint: Meeting['joint'] }
  /** Past an edge of the pages. */
  | { readonly edge: 'head' | 'foot' | 'fore-edge' | 'spine' }
  /** In a space that is to be kept clear, by its name. */
  | { readonly space: string }
  /** Under glue, and what lies or moves there. */
  | { readonly glue: GlueFaultKind; readonly other: string };

/**
 * What is wrong with glue:
 * - `off card`: a tab hangs over an edge, a hole or a crease of its receiver; a piece does not touch it at all
 * - `card between`: other card lies between the two
 * - `hub between`: so does a hub: the shoulder of it, or the limb that turns on it
 * - `over a slot`: it covers a slot that something passes through
 * - `at a crease`: a crease that moves runs across the glue or along its margin, on the same side
 * - `at a slit`: so does a slit with a tongue in it, or the tail of the tongue sweeps over it
 */
export type GlueFaultKind =
  | 'off card'
  | 'card between'
  | 'hub between'
  | 'over a slot'
  | 'at a crease'
  | 'at a slit';

/** Why something could not be computed. */
export type Unknown =
  /** What is no card: why, with the line of the file. */
  | { readonly because: 'it cannot be built'; readonly reason: string }
  /** It locks, at this page angle, before what was to be looked at; `before` is that page angle where it is a want's. */
  | {
      readonly because: 'it never opens flat' | 'it never shuts' | 'it locks before';
      readonly pageAngle: number;
      readonly before?: number;
    }
  /** A line that is seen end on has no heading. */
  | { readonly because: 'it is seen end on' }
  /** Where there is no card, nothing moves. */
  | { readonly because: 'its point lies off the card' }
  /** There is nothing of the kind. */
  | { readonly because: 'there is none' }
  /** It fails before this is looked at, and no more was asked of it (see `Scorer.scoreInShort`). */
  | { readonly because: 'it fails before' };
