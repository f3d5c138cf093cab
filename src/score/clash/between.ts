import type { Opening } from '../../motion/opening.js';

/** Numbers of poses that are kept: some 50 MB. */
const MOST_KEPT = 6_000_000;
/** Finest step to which page angles are refined, degrees. */
const FINEST = 0.04;

/** Poses between the frames of an opening, worked out when first asked for and kept for all who ask again, as far as there is room. */
export class Between {
  /** Halvings of a frame's step. */
  levels = 0;
  #opening!: Opening;
  #kept: Float64Array[] = [];
  #used = 0;
  readonly #places = new Map<number, number>();

  start(opening: Opening): void {
    this.#opening = opening;
    this.#used = 0;
    this.#places.clear();
    const step = opening.count > 1 ? opening.pageAngles[0] - opening.pageAngles[1] : 0;
    this.levels = Math.max(0, Math.ceil(Math.log2(step / FINEST)));
  }

  /** Number of finest steps in a frame. */
  get parts(): number {
    return 1 << this.levels;
  }

  /** The page angle so many finest steps after a frame, degrees. */
  pageAngle(frame: number, part: number): number {
    const { pageAngles } = this.#opening;
    const share = part / this.parts;
    return part === 0 ? pageAngles[frame] : (1 - share) * pageAngles[frame] + share * pageAngles[frame + 1];
  }

  /** The poses there; 0 < part < parts. Stays valid until the next start. */
  poses(frame: number, part: number): Float64Array {
    const key = frame * this.parts + part;
    const place = this.#places.get(key);
    if (place !== undefined) return this.#kept[place];
    const there = this.#opening.at(this.pageAngle(frame, part));
    // A figure of very many panels that is asked for very many: worked out anew each time.
    if (this.#used * there.length > MOST_KEPT) return there.slice();
    let copy = this.#kept[this.#used];
    if (copy === undefined || copy.length !== there.length) {
      copy = new Float64Array(there.length);
      this.#kept[this.#used] = copy;
    }
    copy.set(there);
    this.#places.set(key, this.#used++);
    return copy;
  }
}
