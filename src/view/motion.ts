import type { Figure } from '../figure/figure.js';
import type { Assembly } from '../motion/assembly.js';
import { Opening } from '../motion/opening.js';
import { type Bend, bendsOf } from './bends.js';

/** One candidate built, with its whole opening: what the page draws at any page angle. */
export class Motion {
  assembly: Assembly;
  readonly #figure: Figure;
  readonly #opening = new Opening();
  #bends: readonly Bend[] | null = null;

  /** Throws CannotBuild. */
  constructor(figure: Figure, vector: Float64Array) {
    this.#figure = figure;
    this.assembly = this.build(vector);
  }

  /** Another candidate in its place. Throws CannotBuild, and then stays as it was. */
  build(vector: Float64Array): Assembly {
    const assembly = this.#figure.build(vector);
    this.#opening.run(assembly, this.#figure.opening.step);
    this.assembly = assembly;
    this.#bends = null;
    return assembly;
  }

  /** The least page angle that it reaches, degrees: 0 unless it locks. */
  get least(): number {
    return this.#opening.lock?.pageAngle ?? 0;
  }

  get opening(): Opening {
    return this.#opening;
  }

  /** The panels that bow, as card does; worked out when it is first asked for. */
  get bends(): readonly Bend[] {
    this.#bends ??= bendsOf(this.assembly, this.#opening, this.#figure.card);
    return this.#bends;
  }

  /** The poses at a page angle, or where it locks before; overwritten by the next call. */
  at(pageAngle: number): Float64Array {
    return this.#opening.at(Math.max(pageAngle, this.least));
  }
}
