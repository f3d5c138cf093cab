import type { Meeting } from '../motion/misfit.js';
import type { Lock } from '../motion/opening.js';
import type { GlueFaultKind } from './finding.js';

/** What a measure found at its worst: how much, and at which page angle (degrees). */
interface Worst {
  readonly value: number;
  readonly pageAngle: number | null;
}

/** A force or a strain at its worst, and the part that causes most of it; none where creases do. */
type Pushed = Worst & { readonly part: string | null };

/** A place where glue does not hold, or holds what it should not. */
export interface GlueFault {
  /** What is glued on, and what it is glued to. */
  readonly glued: string;
  readonly receiver: string;
  readonly kind: GlueFaultKind;
  /** The card or the hub between, what passes through the slot, what moves; the receiver again for `off card`. */
  readonly other: string;
  /** Area of glue concerned, mm². */
  readonly area: number;
}

/** The least room that a part has in the slot it passes through. */
export interface SlotRoom {
  /** The slot, by its part. */
  readonly slot: string;
  readonly passing: string;
  readonly panel: string;
  /**
   * mm from the part's section to the slot's edge; below 0 it has run past it; where it does not cross the plane of the
   * slot's panel though it should, minus the way to it.
   */
  readonly room: number;
  /** Whether it crosses that plane there. */
  readonly crosses: boolean;
  readonly pageAngle: number;
  /** Where, on the panel with the slot, as a figure file has it. */
  readonly at: readonly [number, number] | null;
}

/** What was measured of one candidate, for the limits to judge: panels by name, lengths in mm, angles in degrees. */
export interface Measured {
  /** Whether the page moves at all; where it locks before it has opened flat, there is nothing to look at. */
  readonly moves: boolean;
  readonly lock: Lock | null;
  /** The catch that counts. */
  readonly catch: {
    readonly depth: number;
    readonly pageAngle: number;
    readonly between: readonly [string, string];
    readonly points: readonly [readonly [number, number], readonly [number, number]];
  } | null;
  /** How hard the page is to turn, N at its edge, and how card is strained, as a share; null where it does not move. */
  readonly force: {
    readonly toShut: Pushed;
    readonly toOpen: Pushed;
    readonly strain: Pushed;
  } | null;
  /** How far joints miss each other. */
  readonly binding: Worst & { readonly at: Meeting | null };
  /** How far card leaves the wedge between the pages. */
  readonly outside: Worst & { readonly panel: string | null };
  /** Shut; null where the figure never shuts. */
  readonly shut: {
    readonly residue: number;
    readonly standing: string | null;
    readonly overhang: number;
    readonly overhanging: string | null;
    readonly pile: number;
  } | null;
  /** Open: farthest that any card stands off the pages, and which panel does. */
  readonly openResidue: number;
  readonly openStanding: string | null;
  /** Empty where it has none, or nothing was to be seen of them. */
  readonly slots: readonly SlotRoom[];
  /** The crease of which the least lies on card, per cent: on the first of the two panels. */
  readonly crease: { readonly share: number; readonly between: readonly [string, string] } | null;
  /** The shortest fold, per cent of how far the lesser of its two panels reaches along it. */
  readonly fold: { readonly share: number; readonly between: readonly [string, string] } | null;
  /** The least places of glue, mm² and mm; null where nothing is glued. */
  readonly leastGlue: {
    readonly area: { readonly value: number; readonly between: readonly [string, string] };
    readonly breadth: { readonly value: number; readonly between: readonly [string, string] };
    /** Of a flat piece, per cent of its card; null where there is none. */
    readonly share: { readonly value: number; readonly between: readonly [string, string] } | null;
  } | null;
  /** The narrowest card, mm: of a panel at a place in its plane, or of what holds two panels together. */
  readonly narrowest: {
    readonly breadth: number;
    readonly panels: readonly string[];
    readonly at: readonly [number, number];
  } | null;
  /** Whether it is cut by hand: what is asked of the drawing alone is not asked of it. */
  readonly handCut: boolean;
  /** The worst first. */
  readonly glue: readonly GlueFault[];
  /** How parts stick out while the page turns, the farthest first; null where the figure asks nothing of it. */
  readonly uncovered:
    | readonly {
        readonly past: number;
        readonly edge: 'head' | 'foot' | 'fore-edge' | 'spine';
        readonly pageAngle: number;
        readonly panel: string;
      }[]
    | null;
  /** What comes into a space to be kept clear; null where there is none. */
  readonly intrusion: (Worst & { readonly panel: string | null; readonly space: string | null }) | null;
  /** Of chains of links; null where the figure has none, or does not move. */
  readonly chains: {
    readonly tilt: Worst & { readonly at: Meeting | null };
    readonly jump: Worst & { readonly at: Meeting | null };
  } | null;
}
