import { CannotBuild } from '../../motion/cannot-build.js';
import { Motion } from '../../view/motion.js';
import { el } from './dom.js';
import { drawing } from './drawing.js';
import type { Study } from './study.js';

/** The page angle of the little pictures, degrees. */
const PAGE_ANGLE = 120;
/** So many are kept; the oldest go first. */
const MOST_KEPT = 200;

/** Little pictures of candidates, drawn one by one when there is time, and kept for a while. */
export class Pictures {
  readonly #study: Study;
  readonly #kept = new Map<number, Element>();
  readonly #waiting: { place: number; frame: HTMLElement }[] = [];
  #motion: Motion | null = null;
  #drawing = false;

  constructor(study: Study) {
    this.#study = study;
  }

  /** A frame for the picture of a candidate, filled now or soon. */
  of(place: number): HTMLElement {
    const frame = el('span', { class: 'frame' });
    const kept = this.#kept.get(place);
    if (kept) frame.append(kept.cloneNode(true));
    else {
      this.#waiting.push({ place, frame });
      if (!this.#drawing) {
        this.#drawing = true;
        setTimeout(() => this.#drawNext());
      }
    }
    return frame;
  }

  #drawNext(): void {
    const next = this.#waiting.shift();
    if (next === undefined) {
      this.#drawing = false;
      return;
    }
    // A frame whose row has gone in the meantime needs none.
    if (next.frame.isConnected) {
      const picture = this.#kept.get(next.place) ?? this.#draw(next.place);
      this.#kept.set(next.place, picture);
      const [oldest] = this.#kept.keys();
      if (this.#kept.size > MOST_KEPT) this.#kept.delete(oldest);
      next.frame.replaceChildren(picture.cloneNode(true));
    }
    setTimeout(() => this.#drawNext());
  }

  #draw(place: number): Element {
    const { figure } = this.#study;
    const name = this.#study.nameOf(place);
    try {
      const vector = this.#study.vectorOf(place);
      if (this.#motion === null) this.#motion = new Motion(figure, vector);
      else this.#motion.build(vector);
      return drawing(this.#motion.assembly, this.#motion.at(PAGE_ANGLE), name, 'close');
    } catch (error) {
      if (!(error instanceof CannotBuild)) throw error;
      return el('span', { class: 'quiet' }, 'cannot be built');
    }
  }
}
