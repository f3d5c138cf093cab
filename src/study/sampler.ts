import { batchSize } from '../search/batch-size.js';
import type { Variable } from '../search/evaluator.js';
import { Sobol } from '../search/sobol.js';
import { Space } from '../search/variables.js';
import type { Asker } from './study.js';

/** Candidates asked for at once at least. Workers wait for one another at the end of a batch, so it is not small. */
const LEAST = 512;

/**
 * Plain sampling: the points of a Sobol sequence, scrambled by the seed, and nothing learnt from how they score.
 * @param samples how many in all
 */
export class Sampler implements Asker {
  readonly #space: Space;
  readonly #sobol: Sobol;
  readonly #samples: number;
  #asked: number;

  /** @param asked how many were asked for before, as `save` gave it */
  constructor(variables: readonly Variable[], seed: number, samples: number, asked = 0) {
    this.#space = new Space(variables);
    this.#sobol = new Sobol(variables.length, seed);
    this.#samples = samples;
    this.#asked = asked;
  }

  async ask(): Promise<{ stage: string; batch: Float64Array[] } | null> {
    const from = this.#asked;
    if (from >= this.#samples) return null;
    this.#asked = Math.min(this.#samples, from + Math.max(LEAST, batchSize(this.#samples)));
    const batch: Float64Array[] = [];
    for (let i = from; i < this.#asked; i++) batch.push(this.#space.toValues(this.#sobol.point(i)));
    return { stage: 'sample', batch };
  }

  tell(): void {}

  save(): number {
    return this.#asked;
  }
}
