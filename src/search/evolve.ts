import type { Candidate } from './archive.js';
import { crowding, sortIntoFronts, violationOf } from './pareto.js';
import type { Random } from './random.js';
import { survivors } from './survival.js';
import type { Space } from './variables.js';
import { crossed, differed, jittered, mutate } from './variation.js';

/**
 * Evolution in the manner of NSGA-II (Deb et al. 2002): parents are drawn by tournament on front and crowding, parents and
 * children compete together. Three things differ, each because it measured better on the published test functions and on
 * made-up figures: a child is made by one of three ways, drawn at random, since crossover does well where dims act
 * singly and differences do where dims are tied to one another (as in folding they are); survivors are thinned one by
 * one; and generations are small.
 *
 * Holds no random state: what it breeds depends on its population and the stream that it is handed.
 */
export class Evolution {
  readonly #space: Space;
  readonly #size: number;
  #population: Candidate[] = [];

  /** @param size how many candidates make the population */
  constructor(space: Space, size: number) {
    this.#space = space;
    this.#size = size;
  }

  get population(): readonly Candidate[] {
    return this.#population;
  }

  /**
   * Whether there are as many that break nothing as it keeps. From then on it never keeps one that breaks something, however
   * little, so that how far one does need not be known.
   */
  get isFilled(): boolean {
    return (
      this.#population.length === this.#size &&
      this.#population.every(({ scored }) => violationOf(scored) === 0)
    );
  }

  /** Takes newly scored candidates in; only the fittest of old and new stay. */
  accept(candidates: readonly Candidate[]): void {
    const all = [...this.#population, ...candidates];
    this.#population = survivors(
      all.map((c) => c.scored),
      this.#size,
    ).map((i) => all[i]);
  }

  /** A function that makes one child after the other, each a snapped point; the population must not be empty. */
  breeder(random: Random): () => Float64Array {
    const pool = this.#population;
    const parent = tournament(random, pool);
    const anyone = () => pool[random.below(pool.length)].unit;
    const odds = 1 / this.#space.size;
    return () => {
      const way = random.next();
      let child: Float64Array;
      if (way < 0.4) {
        child = crossed(random, this.#space, parent(), parent(), 15);
        mutate(random, this.#space, child, odds, 20);
      } else if (way < 0.8) {
        const scale = 0.4 + 0.5 * random.next();
        const rate = [0.1, 0.5, 0.9][random.below(3)];
        child = differed(random, this.#space, parent(), anyone(), anyone(), scale, rate);
        if (random.next() < 0.5) mutate(random, this.#space, child, odds, 20);
      } else {
        child = jittered(random, this.#space, parent(), anyone(), anyone());
      }
      return this.#space.snap(child);
    };
  }
}

/** Draws parents: of two at random the one of the better front, or else the less crowded. */
function tournament(random: Random, pool: readonly Candidate[]): () => Float64Array {
  const scored = pool.map((c) => c.scored);
  const ranks = sortIntoFronts(scored);
  const room = new Float64Array(pool.length);
  for (let rank = 0, left = pool.length; left > 0; rank++) {
    const front: number[] = [];
    for (let i = 0; i < pool.length; i++) if (ranks[i] === rank) front.push(i);
    left -= front.length;
    crowding(scored, front).forEach((distance, k) => {
      room[front[k]] = distance;
    });
  }
  return () => {
    const a = random.below(pool.length);
    const b = random.below(pool.length);
    const first = ranks[a] !== ranks[b] ? ranks[a] < ranks[b] : room[a] >= room[b];
    return pool[first ? a : b].unit;
  };
}
