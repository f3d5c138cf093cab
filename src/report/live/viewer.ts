import type { Crossing } from '../../geometry/crossing.js';
import type { Assembly } from '../../motion/assembly.js';
import type { Scorecard } from '../../score/scorecard.js';
import type { PrintedPanel } from '../../sheets/art/printed-panels.js';
import type { Bend } from '../../view/bends.js';
import type { Trace } from './traces.js';

/** What of a motion is drawn: panels, and where they are at a page angle. */
export interface Moving {
  readonly assembly: Pick<Assembly, 'panels' | 'page'>;
  /** The least page angle that it reaches, degrees. */
  readonly least: number;
  /** The panels that bow. */
  readonly bends: readonly Bend[];
  /** Overwritten by the next call. */
  at(pageAngle: number): Float64Array;
}

/** A dummy as it is drawn. */
export interface Drawable {
  /** null for what cannot be built. */
  readonly motion: Moving | null;
  readonly traces: readonly Trace[];
  readonly card: Pick<Scorecard, 'clash'>;
  /** Whether panels that cross so catch, and do not only press or rub; `pageAngle` in degrees. */
  readonly counts: Counts;
  /** Art on its panels; `art` counts the drawings of the viewer. */
  readonly printed?: readonly PrintedPanel[];
}

export type Counts = (a: number, b: number, found: Readonly<Crossing>, pageAngle: number) => boolean;

/** How the figure is looked at. */
export interface Look {
  readonly seeThrough: boolean;
  /** 0, as built, to 1, pulled apart by piece. */
  readonly apart: number;
  readonly traces: boolean;
  /** How many times as far as it does card is drawn to bow. */
  readonly bow: number;
  /** The name of a panel to bring out, or null. */
  readonly pointedAt: string | null;
}

/** A figure on show, and what it is called. */
export interface OnShow {
  readonly dummy: Drawable;
  readonly name: string;
}

/** Shows one figure, or two beside one another, at one page angle. */
export interface Viewer {
  readonly element: HTMLElement;
  /** Draws other figures: again also when a dummy has been set to other dims. */
  show(figures: readonly OnShow[]): void;
  /** Takes what is known now of where they catch; nothing else of them has changed. */
  judge(figures: readonly OnShow[]): void;
  turnTo(pageAngle: number): void;
  look(look: Look): void;
  /** Seen from the usual place again. */
  resetView(): void;
  /** Comes nearer by so many steps; farther if negative. */
  nearer(steps: number): void;
}
