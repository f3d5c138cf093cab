import type { Finding, Unknown } from '../limits/finding.js';
import type { LimitScore } from '../limits/judge.js';
import type { GlueFault, SlotRoom } from '../limits/measured.js';
import type { Meeting } from '../motion/misfit.js';
import type { Lock } from '../motion/opening.js';
import type { ChainExtremes } from './chain-extremes.js';
import type { ForceScore } from './force/force.js';

/** What is known of catches where nothing is computed yet, or cannot be. */
export const NO_CLASH: Scorecard['clash'] = {
  deepest: null,
  push: null,
  pageAngle: null,
  between: null,
  points: null,
  firstPageAngle: null,
  press: null,
};

/** How one want came out. */
export interface WantScore {
  readonly name: string;
  readonly kind: string;
  /** null when it could not be computed; then `unknown` says why. */
  readonly value: number | null;
  readonly unit: 'mm' | 'degrees';
  readonly met: boolean;
  /** 0 (useless) to 1 (fully wanted), Derringer and Suich's form; null when not computed. */
  readonly desirability: number | null;
  readonly weight: number;
  /** What is wrong beside the value. */
  readonly finding?: Finding;
  readonly unknown?: Unknown;
}

/** One candidate's whole score: data only; `report` makes words of it. Lengths in mm, angles in degrees. */
export interface Scorecard {
  /** Breaks no limit and meets every want. */
  readonly works: boolean;
  /** Why it could not be built at all, else null. */
  readonly cannotBuild: string | null;
  /**
   * 0 when every limit holds; else the sum, over broken limits, of the excess in units of that limit's scale; null when it
   * could not be built, or was scored in short.
   */
  readonly violation: number | null;
  /** Weighted geometric mean of the wants' desirabilities; null when any was not computed, the page never opens flat, or it was scored in short. */
  readonly desirability: number | null;
  readonly wants: readonly WantScore[];
  readonly limits: readonly LimitScore[];
  readonly clash: {
    /** Depth of the deepest catch that counts, mm; 0 for none; null when not computed. */
    readonly deepest: number | null;
    /** How hard it pushes, mm: how far card must bend out of its plane. */
    readonly push: number | null;
    readonly pageAngle: number | null;
    readonly between: readonly [string, string] | null;
    /** The place of the catch on each panel, as a figure file has it: y is up from its foot. */
    readonly points: readonly [readonly [number, number], readonly [number, number]] | null;
    /** First page angle, closing, at which any counted catch starts. */
    readonly firstPageAngle: number | null;
    /** Greatest push among contacts too shallow to count, mm. */
    readonly press: number | null;
  };
  readonly flat: {
    /** Farthest that any card stands off the left page when shut, mm; null when it never gets shut. */
    readonly residue: number | null;
    /** Farthest that card sticks out past the page's edges when shut, mm. */
    readonly overhang: number | null;
    /** Thickest pile of card between the pages when shut, mm. */
    readonly pile: number | null;
    /** Farthest off the pages when open, mm. */
    readonly openResidue: number | null;
  };
  readonly bind: {
    /** Worst misfit anywhere, mm; null when the page does not move. */
    readonly misfit: number | null;
    readonly pageAngle: number | null;
    /** First page angle, closing, at which anything misses by more than the give. */
    readonly firstPageAngle: number | null;
    readonly at: Meeting | null;
  };
  /** How hard the page is to turn, and how card bows and is strained; null when the page does not move. */
  readonly force: ForceScore | null;
  /** Worst tilt of hubs (degrees), lift of glued ends (mm) and sudden turn (degrees); null without chains of links. */
  readonly chains: ChainExtremes | null;
  /** The least room in each slot, mm. */
  readonly slots: readonly SlotRoom[];
  /** Where glue tabs don't lie well, the worst first. */
  readonly glue: readonly GlueFault[];
  /** Farthest that card leaves the wedge between the pages, mm; null when the page does not move. */
  readonly book: {
    readonly out: number | null;
    readonly pageAngle: number | null;
    readonly part: string | null;
  };
  readonly locks: Lock | null;
}
