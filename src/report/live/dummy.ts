import type { Figure } from '../../figure/figure.js';
import type { Want } from '../../figure/wants.js';
import { counts } from '../../score/clash/contacts.js';
import { type Rubs, rubsOf } from '../../score/clash/rubs.js';
import type { Scorecard } from '../../score/scorecard.js';
import { Scorer } from '../../score/scorer.js';
import type { PrintedPanel } from '../../sheets/art/printed-panels.js';
import { Motion } from '../../view/motion.js';
import { NO_ART, type PageArt } from './data.js';
import { printedOn } from './printed-on.js';
import { type Trace, tracesOf } from './traces.js';
import type { Counts } from './viewer.js';

/** One candidate with its motion and its scorecard, by the kernel that the workers run. */
export class Dummy {
  readonly #figure: Figure;
  readonly #scorer: Scorer;
  #motion: Motion | null = null;
  #wants: readonly Want[] = [];
  #card: Scorecard;
  #traces: readonly Trace[] = [];
  #rubs: Rubs | null = null;
  readonly counts: Counts = (a, b, found, pageAngle) =>
    counts(found, pageAngle, this.#figure.limits.press, this.#rubs, a, b);
  readonly #art: PageArt;
  #printed: readonly PrintedPanel[] = [];

  constructor(figure: Figure, vector: Float64Array, art: PageArt = NO_ART) {
    this.#art = art;
    this.#figure = figure;
    this.#scorer = new Scorer(figure);
    this.#card = this.set(vector);
  }

  set(vector: Float64Array): Scorecard {
    this.#card = this.#scorer.score(vector);
    if (this.#card.cannotBuild === null) {
      if (this.#motion === null) this.#motion = new Motion(this.#figure, vector);
      else this.#motion.build(vector);
      this.#rubs = rubsOf(this.#figure, this.#motion.assembly);
      this.#wants = this.#figure.wantsOf(vector);
      this.#traces = tracesOf(this.#motion, this.#wants);
      this.#printed = printedOn(this.#motion.assembly, this.#figure, this.#art);
    }
    return this.#card;
  }

  get card(): Scorecard {
    return this.#card;
  }

  /** null for what cannot be built. */
  get motion(): Motion | null {
    return this.#card.cannotBuild === null ? this.#motion : null;
  }

  /** With the points and lines of this candidate, or of the last that could be built. */
  get wants(): readonly Want[] {
    return this.#wants;
  }

  get traces(): readonly Trace[] {
    return this.#traces;
  }

  get printed(): readonly PrintedPanel[] {
    return this.#printed;
  }
}
