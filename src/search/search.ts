import { Archive, type Candidate } from './archive.js';
import { batchSize } from './batch-size.js';
import type { Scored, Variable } from './evaluator.js';
import { Evolution } from './evolve.js';
import type { Foresight } from './expected.js';
import { Fingerprints } from './fingerprints.js';
import type { HeldOut } from './held-out.js';
import { countNear, near } from './near.js';
import { Neighbours } from './neighbours.js';
import { stream } from './random.js';
import { refiner } from './refine.js';
import { screened } from './screen.js';
import { Sobol } from './sobol.js';
import { Surrogate, type SurrogateState } from './surrogate.js';
import { inputsOf } from './surrogate-data.js';
import type { TensorBackend } from './tensor-backend.js';
import { fingerprint, Space } from './variables.js';

/** Share of the budget that is sampled blindly at first, and its bounds. */
const SAMPLED = { share: 0.05, least: 64, most: 500 };
/** The last share of the budget goes into refining what was found. */
const REFINED = 0.1;
/** Members of the archive from which refining starts: fewer have no neighbours. */
const ENOUGH = 3;
/** Once something is expected of points, so many are made for each that is scored. */
const POOL = 20;
/** To choose among them takes time as the square: of large batches fewer are made, two for each that is scored at least. */
const MOST_POOL = 4000;
/** Neighbours are looked for among so many that were scored last: the population lies where these do. */
const RECENT = 2000;
/** With more dims and options than this, fits to neighbours would take longer than they spare: their time grows as the cube. */
const MOST_INPUTS = 64;
/** Steps of the first training, and of each one after. */
const FIRST_STEPS = 150;
const STEPS = 10;

export type Stage = 'own' | 'sample' | 'evolve' | 'refine';

export interface SearchOptions {
  /** All chance comes from it. */
  seed: number;
  /** How many candidates will be scored in all; infinite if that is not known, and then nothing is refined at the end. */
  budget: number;
  /** With a backend a surrogate screens what is scored, without one what was scored nearby does. */
  surrogate?: TensorBackend;
  /** Values of the dims that are scored first of all, and bred from: the maker's own. */
  own?: Float64Array;
}

/** Where a search stands after a `tell`: plain JSON, to be kept beside the record of what was scored. */
export interface SearchState {
  /** Sizes of the batches told of, in order. */
  batches: number[];
  /** Points of the Sobol sequence used up. */
  sampled: number;
  /** What the surrogate knew before the training that the last batch set off. */
  learnt: SurrogateState | null;
}

/**
 * The whole search: what the maker has and what lies near it, Sobol samples, then evolution, then refinement of the front; `ask` says what to score next, `tell`
 * takes the scores.
 *
 * What it asks depends on the variables, the options and what it was told, and on nothing else: not on time, nor on who
 * scored. So an interrupted search goes on with the same bytes, either from `save` and the record (`restore`), or by being
 * asked and told again from the start. With a surrogate that holds for one backend of TensorFlow.js.
 *
 * @example
 * const search = new Search(variables, { seed: 1, budget: 2000 });
 * for (let asked = await search.ask(); asked; asked = await search.ask()) search.tell(await evaluate(asked.batch));
 */
export class Search {
  readonly #space: Space;
  readonly #options: SearchOptions;
  readonly #batch: number;
  readonly #sobol: Sobol;
  readonly #evolution: Evolution;
  readonly #archive = new Archive(400);
  readonly #seen = new Fingerprints();
  #recent: Candidate[] = [];
  readonly #batches: number[] = [];
  #sampled = 0;
  #told = 0;
  #pending: Float64Array[] | null = null;
  #surrogate: Surrogate | null = null;
  #training: Promise<void> = Promise.resolve();
  /** What the surrogate knew before its last training. */
  #learnt: SurrogateState | null = null;
  #state: SearchState = { batches: [], sampled: 0, learnt: null };

  constructor(variables: readonly Variable[], options: SearchOptions) {
    this.#space = new Space(variables);
    this.#options = options;
    this.#batch = batchSize(options.budget);
    this.#sobol = new Sobol(variables.length, options.seed);
    this.#evolution = new Evolution(
      this.#space,
      Math.min(64, Math.max(32, Math.round(Math.sqrt(options.budget)))),
    );
  }

  /**
   * The next candidates to score, as values of the dims; none twice. Null when the budget is spent, or when there is
   * nothing left that was not asked before. Of those that are asked in short, what breaks something need not be scored
   * further: that changes nothing of what is asked after. (A surrogate learns from how far they do.)
   * @throws Error when it was not told of the last ones yet
   */
  async ask(): Promise<{ stage: Stage; batch: Float64Array[]; inShort: boolean } | null> {
    if (this.#pending)
      throw new Error('The search must be told of the last batch before it is asked for the next.');
    await this.#training;
    const { own } = this.#options;
    let stage = this.#stage();
    let units = stage === 'own' ? this.#around(own) : stage === 'sample' ? [] : this.#bred(stage);
    if (units.length === 0) {
      stage = 'sample';
      units = this.#samples();
    }
    if (units.length === 0) return null;
    for (const unit of units) this.#seen.add(fingerprint(unit));
    this.#pending = units;
    this.#train();
    const batch = units.map((unit) => this.#space.toValues(unit));
    // To the last digit, as the maker has it.
    if (stage === 'own' && own !== undefined) batch[0] = own.slice();
    // Samples are learnt from by more than the search.
    const inShort = stage !== 'sample' && !this.#surrogate && this.#evolution.isFilled;
    return { stage, batch, inShort };
  }

  /** Scores of the last batch, in its order. */
  tell(scored: readonly Scored[]): void {
    const units = this.#pending;
    if (units?.length !== scored.length)
      throw new Error('The search was told of other candidates than it asked for.');
    this.#pending = null;
    this.#take(units.map((unit, i) => ({ unit, scored: scored[i] })));
  }

  /** How well the surrogate does on candidates it did not learn from; null without one. */
  async check(): Promise<HeldOut | null> {
    await this.#training;
    return this.#surrogate?.check() ?? null;
  }

  /** Where it stands after the last `tell`. */
  save(): SearchState {
    return { ...this.#state, batches: [...this.#state.batches] };
  }

  /**
   * A search that goes on where `save` was called.
   * @param record what it had been told by then, in order: values of the dims and scores
   */
  static restore(
    variables: readonly Variable[],
    options: SearchOptions,
    state: SearchState,
    record: Iterable<{ vector: ArrayLike<number>; scored: Scored }>,
  ): Search {
    const search = new Search(variables, options);
    search.#sampled = state.sampled;
    const candidates: Candidate[] = [];
    for (const { vector, scored } of record) candidates.push({ unit: search.#space.toUnit(vector), scored });
    for (const { unit } of candidates) search.#seen.add(fingerprint(unit));
    state.batches.forEach((size, k) => {
      const batch = candidates.splice(0, size);
      if (batch.length < size) throw new RangeError('The record is shorter than what the search was told.');
      if (k === state.batches.length - 1 && state.learnt) {
        search.#surrogate?.restore(state.learnt);
        search.#train();
      }
      search.#take(batch);
    });
    return search;
  }

  get #left(): number {
    return this.#options.budget - this.#told;
  }

  /** What the maker has, with what is tried around it; not more than the budget. */
  get #ownCount(): number {
    const { own, budget } = this.#options;
    return own === undefined ? 0 : 1 + countNear(budget);
  }

  /** How many are to be scored before anything is bred. */
  get #toSample(): number {
    const { share, least, most } = SAMPLED;
    const { budget } = this.#options;
    return Math.min(budget, this.#ownCount + Math.min(most, Math.max(least, Math.round(share * budget))));
  }

  #stage(): Stage {
    if (this.#told === 0 && this.#ownCount > 0) return 'own';
    if (this.#told < this.#toSample) return 'sample';
    const late = this.#told >= (1 - REFINED) * this.#options.budget;
    return late && this.#archive.members.length >= ENOUGH ? 'refine' : 'evolve';
  }

  /** New points of the Sobol sequence: all that come first, or a batch where nothing new can be bred. */
  #samples(): Float64Array[] {
    const count =
      this.#told < this.#toSample ? this.#toSample - this.#told : Math.min(this.#batch, this.#left);
    return this.#fresh(count, () => this.#space.snap(this.#sobol.point(this.#sampled++)));
  }

  #around(own: Float64Array | undefined): Float64Array[] {
    if (own === undefined) return [];
    const unit = this.#space.toUnit(own);
    const random = stream(this.#options.seed, 'own');
    this.#seen.add(fingerprint(unit));
    return [unit, ...this.#fresh(this.#ownCount - 1, () => near(random, this.#space, unit))];
  }

  #bred(stage: Stage): Float64Array[] {
    const random = stream(this.#options.seed, `batch ${this.#batches.length}`);
    const make =
      stage === 'refine'
        ? refiner(random, this.#space, this.#archive.members)
        : this.#evolution.breeder(random);
    const count = Math.min(this.#batch, this.#left);
    const foresight = this.#foresight();
    if (foresight === null) return this.#fresh(count, make);
    const pool = Math.min(POOL * count, Math.max(MOST_POOL, 2 * count));
    return screened(foresight, this.#evolution.population, this.#fresh(pool, make), count);
  }

  /**
   * What tells which points are worth scoring; null while too little is known. Where there is but one objective, those that promise most
   * all lie about the one that is best so far: then nothing is screened (of the pressure vessel, no run in eight found the best).
   */
  #foresight(): Foresight | null {
    if (this.#options.surrogate) return this.#learnt && this.#surrogate;
    const { population, isFilled } = this.#evolution;
    const many = population[0].scored.objectives.length > 1;
    if (!isFilled || !many || inputsOf(this.#space) > MOST_INPUTS) return null;
    return new Neighbours(this.#space, population, this.#recent);
  }

  /** Points that were never asked for before, each once; fewer than asked for where they can't be found. */
  #fresh(count: number, make: () => Float64Array): Float64Array[] {
    const found = new Map<number, Float64Array>();
    for (let tries = 0; found.size < count && tries < 20 * count; tries++) {
      const unit = make();
      const print = fingerprint(unit);
      if (!this.#seen.has(print)) found.set(print, unit);
    }
    return [...found.values()];
  }

  #take(candidates: readonly Candidate[]): void {
    this.#batches.push(candidates.length);
    this.#told += candidates.length;
    this.#evolution.accept(candidates);
    this.#recent = [...this.#recent, ...candidates].slice(-RECENT);
    const { surrogate, seed } = this.#options;
    if (surrogate && !this.#surrogate) {
      const { objectives, failures } = candidates[0].scored;
      this.#surrogate = new Surrogate(surrogate, this.#space, objectives.length, failures?.length ?? 0, seed);
    }
    for (const candidate of candidates) {
      this.#archive.add(candidate);
      this.#surrogate?.add(candidate);
    }
    this.#state = { batches: this.#batches, sampled: this.#sampled, learnt: this.#learnt };
  }

  /**
   * Trains on all that was told before the pending batch, while that is being scored: what comes of it serves the batch
   * after. When workers are done has no say in it.
   */
  #train(): void {
    const batch = this.#batches.length;
    // What lies around the maker's own is too little to learn from.
    const first = this.#ownCount > 0 ? 2 : 1;
    if (!this.#surrogate || batch < first) return;
    this.#learnt = this.#surrogate.save();
    this.#training = this.#surrogate.train(`training ${batch}`, batch > first ? STEPS : FIRST_STEPS);
  }
}
