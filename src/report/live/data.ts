import type { FigureSource } from '../../figure/text/source.js';
import type { CleanDrawing } from '../../sheets/art/clean-drawing.js';
import type { PanelArt } from '../../sheets/art/place-art.js';
import type { Html } from '../pages/html.js';

/** All that the live page is made of. Build it with `pageData`. */
export interface PageData {
  /** What the figure is called. */
  readonly title: string;
  /** How the study came out, a sentence each. */
  readonly summary: readonly string[];
  /** The figure file: the page compiles it, and moves and scores its candidates itself. */
  readonly figure: FigureSource;
  /** For each want, whether more of its value is better or less, or null when it has a target. */
  readonly better: readonly Better[];
  /** Names of the limits, in the order of `Candidates.met`. */
  readonly limits: readonly { readonly name: string; readonly unit: string }[];
  /** Names of the stages of the search, as `Candidates.stage` counts them. */
  readonly stages: readonly string[];
  /** How many candidates the study has scored; the page may hold fewer. */
  readonly scored: number;
  /** Whether the study goes on: the page is then written again. */
  readonly underWay: boolean;
  readonly candidates: Candidates;
  /** Charts and words about the study, made beforehand, each under a heading of its own. */
  readonly sections: readonly Section[];
  /** What fails how often, made beforehand. */
  readonly failures: Html;
  /** What stands in place of what the script builds, where scripts don't run. */
  readonly plain: Html;
  /** What the study was run with, as pairs of words. */
  readonly facts: readonly (readonly [string, string])[];
  readonly art: PageArt;
}

/** What is printed on the figure's panels: each drawing once, a picture as base64 of its PNG; and where they lie. */
export interface PageArt {
  readonly drawings: readonly (Omit<CleanDrawing, 'left' | 'picture'> & {
    readonly picture: string | null;
  })[];
  readonly places: readonly (Omit<PanelArt, 'drawing'> & { readonly drawing: number })[];
}

export type Better = 'more' | 'less' | null;

export interface Section {
  /** Unique in the page; letters and digits. */
  readonly id: string;
  readonly title: string;
  readonly body: Html;
}

/**
 * Candidates, best first, one place in each array to a candidate (times the width where there is one).
 * NaN: not computed.
 */
export interface Candidates {
  readonly count: number;
  /** As in candidates.csv, from 1. */
  readonly number: Uint32Array;
  /** Place among all that the study has scored, from 1. */
  readonly rank: Uint32Array;
  readonly stage: Uint8Array;
  /** A place in OUTCOMES of a study's rows. */
  readonly outcome: Uint8Array;
  /** A place in GRADES; more where it is not known. */
  readonly grade: Uint8Array;
  /** The free dims, exactly. */
  readonly vectors: Float64Array;
  readonly desirability: Float32Array;
  /** Values of the wants, then of the limits. */
  readonly values: Float32Array;
  /** 1 where met, or not looked at in what fails already: wants, then limits. */
  readonly met: Uint8Array;
}

export const NO_ART: PageArt = { drawings: [], places: [] };

/** What is written into the page: `PageData` without what stands in it as HTML already. */
export interface Embedded
  extends Pick<PageData, 'figure' | 'better' | 'limits' | 'stages' | 'scored' | 'underWay' | 'art'> {
  readonly candidates: Packed;
}

/** Candidates with each array as base64 of its bytes. */
export type Packed = {
  readonly [Name in keyof Candidates]: Candidates[Name] extends number ? number : string;
};
