import type { Dummy } from './dummy.js';

/** How the figure is looked at. */
export interface Look {
  readonly seeThrough: boolean;
  /** 0, as built, to 1, pulled apart by piece. */
  readonly apart: number;
  readonly traces: boolean;
  /** The name of a panel to bring out, or null. */
  readonly pointedAt: string | null;
}

/** A figure on show, and what it is called. */
export interface OnShow {
  readonly dummy: Dummy;
  readonly name: string;
}

/** Shows one figure, or two beside one another, at one page angle. */
export interface Viewer {
  readonly element: HTMLElement;
  /** Draws other figures: again also when a dummy has been set to other dims. */
  show(figures: readonly OnShow[]): void;
  turnTo(pageAngle: number): void;
  look(look: Look): void;
  /** Seen from the usual place again. */
  resetView(): void;
}
