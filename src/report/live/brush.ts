import { oncePerFrame } from './dom.js';

/** What a brush tells; heights and places in px from the top left of its board. */
export interface Brushed {
  /** The axis nearest to a place, and how far it is. */
  axisAt(x: number): { axis: number; far: number };
  brushed(axis: number, from: number, to: number): void;
  clicked(x: number, y: number): void;
  cleared(axis: number): void;
}

/** A press that moves less than this is a click, px. */
const STILL = 4;
/** A click this near to an axis is meant for the axis, px. */
const NEAR = 9;

/** Drags along upright axes, by any pointer. */
export class Brush {
  readonly #board: HTMLElement;
  readonly #told: Brushed;
  /** Pointers report more often than a screen shows. */
  readonly #tell = oncePerFrame(() => {
    if (this.#last !== null) this.#told.brushed(this.#last.axis, this.#last.from, this.#last.to);
  });
  #last: { axis: number; from: number; to: number } | null = null;
  #begun: { x: number; y: number; axis: number; moved: boolean } | null = null;

  constructor(board: HTMLElement, told: Brushed) {
    this.#board = board;
    this.#told = told;
    board.addEventListener('pointerdown', (event) => this.#begin(event));
    board.addEventListener('pointermove', (event) => this.#move(event));
    board.addEventListener('pointerup', (event) => this.#end(event));
    board.addEventListener('pointercancel', () => {
      this.#begun = null;
    });
  }

  #place(event: PointerEvent): { x: number; y: number } {
    const { left, top } = this.#board.getBoundingClientRect();
    return { x: event.clientX - left, y: event.clientY - top };
  }

  #begin(event: PointerEvent): void {
    if (event.button !== 0) return;
    const { x, y } = this.#place(event);
    this.#begun = { x, y, axis: this.#told.axisAt(x).axis, moved: false };
    this.#board.setPointerCapture(event.pointerId);
  }

  #move(event: PointerEvent): void {
    if (this.#begun === null) return;
    const { y } = this.#place(event);
    if (Math.abs(y - this.#begun.y) > STILL) this.#begun.moved = true;
    if (!this.#begun.moved) return;
    this.#last = { axis: this.#begun.axis, from: this.#begun.y, to: y };
    this.#tell();
  }

  #end(event: PointerEvent): void {
    const begun = this.#begun;
    this.#begun = this.#last = null;
    if (begun === null) return;
    const { x, y } = this.#place(event);
    const { axis, far } = this.#told.axisAt(x);
    if (begun.moved) this.#told.brushed(begun.axis, begun.y, y);
    else if (far <= NEAR) this.#told.cleared(axis);
    else this.#told.clicked(x, y);
  }
}
