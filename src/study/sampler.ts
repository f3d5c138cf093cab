import { batchSize } from '../search/batch-size.js';
import type { Variable } from '../search/evaluator.js';
import { Sobol } from '../search/sobol.js';
import { Space } from '../search/variables.js';
import type { Asker } from './study.js';

/** Candidates asked for at once at least. Workers wait for one another at the end of a batch, so it is not small. */
const LEAST = 512;

/**
 * Plain sampling: what the maker has, then the points of a Sobol sequence, scrambled by the seed; nothing is learnt from how
 * they score.
 * @param samples how many in all
 */
export class Sampler implements Asker {
  readonly #space: Space;
  readonly #sobol: Sobol;
  readonly #samples: number;
  readonly #own: Float64Array | undefined;
  #asked: number;

  /**
   * @param asked how many were asked for before, as `save` gave it
   * @param own values of the dims that are scored first of all
   */
  constructor(variables: readonly Variable[], seed: number, samples: number, asked = 0, own?: Float64Array) {
    this.#own = own;
    this.#space = new Space(variables);
    this.#sobol = new Sobol(variables.length, seed);
    this.#samples = samples;
    this.#asked = asked;
  }

  async ask(): Promise<{ stage: string; batch: Float64Array[] } | null> {
    const from = this.#asked;
    if (from >= this.#samples) return null;
    if (from === 0 && this.#own !== undefined) {
      this.#asked = 1;
      return { stage: 'own', batch: [this.#own.slice()] };
    }
    this.#asked = Math.min(this.#samples, from + Math.max(LEAST, batchSize(this.#samples)));
    const batch: Float64Array[] = [];
    const before = this.#own === undefined ? 0 : 1;
    for (let i = from - before; i < this.#asked - before; i++)
      batch.push(this.#space.toValues(this.#sobol.point(i)));
    return { stage: 'sample', batch };
  }

  tell(): void {}

  save(): number {
    return this.#asked;
  }
}
