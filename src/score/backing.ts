import { type NarrowPlace, narrowestNeck } from '../geometry/breadth.js';
import { shapeOf } from '../geometry/plane.js';
import type { Polygon } from '../geometry/polygon.js';
import { grown, less, totalArea, united } from '../geometry/region.js';
import { outsideOf } from '../geometry/ring-distance.js';
import { type Assembly, LEFT_PAGE, RIGHT_PAGE } from '../motion/assembly.js';
import { placedShape, placingIn } from './clash/bodies.js';

/** Card that reaches so far beyond what backs it, mm, still leans on it. (Common practice, no source.) */
const LEANS = 2;
/** Only card narrower than this, mm, is worth a look at what backs it. */
const SUSPECT = 5;
/** Less card than this, mm², is round-off. */
const CRUMB = 0.05;

/** Card that is glued flat on other card is as strong as both together. */
export class Backing {
  readonly #assembly: Assembly;

  constructor(assembly: Assembly) {
    this.#assembly = assembly;
  }

  /** Whether a panel lies on other card all over, so that it can't tear by itself. @param breadth of it, mm */
  isWhole(k: number, breadth: number): boolean {
    if (breadth >= SUSPECT) return false;
    const others = this.#others(k);
    if (others.length === 0) return false;
    const own = shapeOf(this.#assembly.panels[k]);
    // What lies under it must be broader than it is itself.
    return totalArea(less(own, ...grown(united(others.map(shapeOf)), LEANS))) < CRUMB && !this.#isLargest(k);
  }

  /** The narrowest neck of a panel; where other card lies over that, the narrowest of both together. */
  neckOf(k: number): NarrowPlace | null {
    const { outline } = this.#assembly.panels[k];
    const own = narrowestNeck(outline);
    if (own === null || own.breadth >= SUSPECT) return own;
    const others = this.#others(k);
    if (!others.some((other) => outsideOf(other.outline, own.at) < -LEANS)) return own;
    const both = united([{ outline, holes: [] }, ...others].map(shapeOf)).flatMap(
      (shape) => narrowestNeck(Float64Array.from(shape.outline.flat())) ?? [],
    );
    return both.reduce<NarrowPlace | null>(
      (least, neck) => (least === null || neck.breadth < least.breadth ? neck : least),
      null,
    );
  }

  /** Of two that back each other, the larger has to hold. */
  #isLargest(k: number): boolean {
    const area = (panel: Polygon) => totalArea([shapeOf(panel)]);
    const { panels } = this.#assembly;
    const { body } = panels[k];
    return panels.every((other, i) => i === k || other.body !== body || area(other) < area(panels[k]));
  }

  /** All other card that is glued flat to a panel, in its plane. */
  #others(k: number): Polygon[] {
    const { panels, open } = this.#assembly;
    return panels.flatMap((other, i) =>
      i === k || other.body !== panels[k].body || (k === LEFT_PAGE && i === RIGHT_PAGE)
        ? []
        : [placedShape(other, placingIn(open, i, k))],
    );
  }
}
