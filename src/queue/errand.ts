import type { Trial } from '../study/figure-pool.js';
import type { ScoringFailure } from '../study/pool.js';
import { MOST_IN_PARCEL } from './messages.js';

/** Parcels of what is left of a batch, for each worker that is lent. */
const FOR_EACH = 2;

/** Some candidates of a batch on their way. */
export interface Parcel {
  readonly number: number;
  readonly vectors: readonly Float64Array[];
  /** Whether what fails by its motion is not looked at further. */
  readonly inShort: boolean;
  /** How often it was handed out. */
  tries: number;
  /** When it was handed out last, and when it was first seen in the hands of a lender since; ms. */
  handed: number;
  taken: number | null;
  /** Whether an answer is there and being checked. */
  answered: boolean;
  /** Null while they are not known. */
  trials: (Trial | ScoringFailure)[] | null;
}

/**
 * One batch: cut into parcels as they are handed out, and read in order as answers come, in whichever order. Parcels are
 * large at first and smaller towards the end, as in a pool of threads; that changes no result, since every candidate is
 * scored for itself.
 */
export class Errand {
  readonly #batch: readonly Float64Array[];
  readonly #inShort: boolean;
  /** Handed out and not yet read. */
  readonly #parcels: Parcel[] = [];
  #cut = 0;
  #read = 0;

  constructor(batch: readonly Float64Array[], inShort: boolean) {
    this.#batch = batch;
    this.#inShort = inShort;
  }

  /** The next parcel to hand out; null when all are. */
  next(number: number, lent: number): Parcel | null {
    const left = this.#batch.length - this.#cut;
    if (left === 0) return null;
    const size = Math.min(MOST_IN_PARCEL, Math.ceil(left / (FOR_EACH * Math.max(1, lent))));
    const vectors = this.#batch.slice(this.#cut, this.#cut + size);
    this.#cut += size;
    const parcel = {
      number,
      vectors,
      inShort: this.#inShort,
      tries: 0,
      handed: 0,
      taken: null,
      answered: false,
      trials: null,
    };
    this.#parcels.push(parcel);
    return parcel;
  }

  /** All trials that are known from where it was read last. */
  *read(): Generator<Trial | ScoringFailure> {
    for (let first = this.#parcels[0]; first?.trials; first = this.#parcels[0]) {
      this.#parcels.shift();
      this.#read += first.vectors.length;
      yield* first.trials;
    }
  }

  get isRead(): boolean {
    return this.#read === this.#batch.length;
  }

  /** Its parcels that are not read yet. */
  get parcels(): readonly Parcel[] {
    return this.#parcels;
  }
}
