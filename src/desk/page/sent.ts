import type { Ties } from '../../edit/tied.js';
import type { Path } from '../../figure/text/input-error.js';
import type { Want } from '../../figure/wants.js';
import type { Line } from '../../geometry/line.js';
import type { Panel } from '../../motion/assembly.js';
import type { PileMap } from '../../report/live/pile-map.js';
import type { Trace } from '../../report/live/traces.js';
import type { Scorecard } from '../../score/scorecard.js';
import type { PrintedPanel } from '../../sheets/art/printed-panels.js';
import type { Setting } from '../../tune/settings.js';
import type { Bend } from '../../view/bends.js';
import type { Drawings } from '../messages.js';
import type { FlatPiece } from './flat-pieces.js';
import type { Handle } from './hold.js';
import type { Place } from './place.js';
import type { Starter } from './starters.js';

/** What the page asks of its workers. An answer carries the number of its question. */
export type Asked =
  /** Another text: move it, score it. */
  | {
      readonly ask: 'text';
      readonly id: number;
      readonly file: string;
      readonly text: string;
      readonly drawings: Drawings;
    }
  /** Another text, to be asked about later; the how-manieth. */
  | {
      readonly ask: 'read';
      readonly id: number;
      readonly reading: number;
      readonly file: string;
      readonly text: string;
      readonly drawings: Drawings;
    }
  /** Fields come to values in a hand that has not let go: the motion first, the score when there is time for it. */
  | {
      readonly ask: 'drag';
      readonly id: number;
      readonly paths: readonly Path[];
      readonly values: readonly number[];
      /** At which the page stands, degrees. */
      readonly pageAngle: number;
    }
  /** What moves with what, for drags. */
  | { readonly ask: 'hold'; readonly id: number; readonly ties: Ties }
  /** The text in which fields come to values, with what is tied to them. */
  | {
      readonly ask: 'place';
      readonly id: number;
      readonly paths: readonly Path[];
      readonly values: readonly number[];
    }
  /** All that may take longer: what can be changed, every catch. */
  | { readonly ask: 'rest'; readonly id: number }
  /** What moves with what. */
  | { readonly ask: 'ties'; readonly id: number }
  /** How hard the page turns, what is tied, what is trimmed. */
  | { readonly ask: 'beside'; readonly id: number }
  /** Every piece as it is cut. */
  | { readonly ask: 'flat'; readonly id: number }
  /** The parts that can stand on a crease or a panel. */
  | { readonly ask: 'starters'; readonly id: number; readonly on: Place };

/** A crease as a panel sees it. */
export interface SeenCrease {
  readonly name: string;
  readonly between: readonly [number, number];
  readonly lines: readonly [Line, Line];
}

export interface MotionSent {
  readonly tell: 'motion';
  readonly id: number;
  readonly name: string;
  readonly panels: Panel[];
  readonly page: { readonly width: number; readonly height: number };
  readonly press: number;
  readonly least: number;
  /** Poses from a page angle of 180 on, 12 numbers a panel, and how far they are apart, degrees. */
  readonly frames: Float64Array<ArrayBuffer>;
  readonly every: number;
  /** The poses at the page angle that was asked for, where that may lie between two of them. */
  readonly shown: { readonly pageAngle: number; readonly poses: Float64Array } | null;
  readonly bends: readonly Bend[];
  readonly traces: readonly Trace[];
  readonly creases: readonly SeenCrease[];
  readonly parts: readonly { readonly name: string; readonly kind: string }[];
}

export interface ScoreSent {
  readonly tell: 'score';
  readonly id: number;
  readonly card: Scorecard;
  readonly wants: readonly Want[];
  readonly pile: PileMap | null;
  /** As `check` says it. */
  readonly words: readonly string[];
}

/** What is wrong with the file. */
export interface FaultSent {
  readonly tell: 'fault';
  readonly id: number;
  readonly message: string;
  readonly line: number;
  readonly column: number;
}

/** Two panels that catch. */
export interface CatchSent {
  readonly between: readonly [string, string];
  readonly startsAt: number;
  readonly pageAngle: number;
  readonly depth: number;
  /** On the second panel, in its own plane. */
  readonly point: readonly [number, number];
  /** Page angles, degrees, between which they catch; elsewhere they rub, or keep clear. */
  readonly spans: readonly (readonly [low: number, high: number])[];
}

/** A named point of the file, in the plane of its panel, mm. */
export interface PlaceSent {
  readonly name: string;
  readonly panel: string;
  readonly at: readonly [number, number];
}

export interface RestSent {
  readonly tell: 'rest';
  readonly id: number;
  /** Of which text. */
  readonly reading: number;
  readonly settings: readonly Setting[];
  /** In closing order. */
  readonly catches: readonly CatchSent[];
  readonly handles: readonly Handle[];
  /** The named points of the file, each on the panel on which it lies. */
  readonly places: readonly PlaceSent[];
  /** Art on its panels; `art` counts the drawings. */
  readonly printed: readonly PrintedPanel[];
  /** The panels that it was laid on, by name. */
  readonly on: readonly string[];
}

export interface FlatSent {
  readonly tell: 'flat';
  readonly id: number;
  /** Of which text. */
  readonly reading: number;
  readonly pieces: readonly FlatPiece[];
}

/** What a maker looks at beside the scorecard. */
export interface BesideSent {
  readonly tell: 'beside';
  readonly id: number;
  /** The chart of how hard the page turns, as SVG. */
  readonly turnChart: string;
  /** All that moves together, in sentences. */
  readonly ties: readonly string[];
  /** Card that trims have taken from panels, mm², and % of what there was. */
  readonly trims: readonly { readonly panel: string; readonly lost: number; readonly share: number }[];
}

export interface DraggedSent {
  readonly tell: 'dragged';
  readonly id: number;
  readonly said: readonly string[];
}

export interface PlacedSent {
  readonly tell: 'placed';
  readonly id: number;
  /** As it was asked. */
  readonly paths: readonly Path[];
  readonly values: readonly number[];
  readonly said: readonly string[];
  /** The whole file with them; made from which text. */
  readonly text: string;
  readonly reading: number;
}

export interface TiesSent {
  readonly tell: 'ties';
  readonly id: number;
  readonly reading: number;
  readonly ties: Ties;
}

export interface StuckSent {
  readonly tell: 'stuck';
  readonly id: number;
  readonly why: string;
}

export interface StartersSent {
  readonly tell: 'starters';
  readonly id: number;
  readonly on: Place;
  readonly starters: readonly Starter[];
}

export type Sent =
  | MotionSent
  | ScoreSent
  | FaultSent
  | RestSent
  | FlatSent
  | BesideSent
  | DraggedSent
  | PlacedSent
  | TiesSent
  | StuckSent
  | StartersSent
  /** A question has been answered: the next one may be asked. */
  | { readonly tell: 'ready'; readonly id: number };
