import { StudyError } from '../disk/error.js';
import { counted } from '../text/phrases.js';
import type { Entry } from './log.js';
import { type Layout, OUTCOMES, type Outcome } from './row.js';

/** The stage of the maker's own dummy, and of what lies around it. */
const OWN = 'own';

/**
 * The numbers of all scored candidates, for ranking, sensitivity and charts. Words stay on disk. Each takes 8 bytes for
 * every free dim and number of a row, and 1 for every want and limit: 210 to 370 in the examples. While an array doubles, it is there
 * twice, and up to half of it is empty then.
 */
export class StudyTable {
  readonly dims: number;
  readonly #layout: Layout;
  readonly #stages: string[] = [];
  readonly #stageOf = new Rows(Uint8Array, 1);
  readonly #outcomes = new Rows(Uint8Array, 1);
  readonly #vectors: Rows<Float64Array>;
  readonly #numbers: Rows<Float64Array>;
  readonly #met: Rows<Uint8Array>;
  #size = 0;

  constructor(dims: number, layout: Layout) {
    this.dims = dims;
    this.#layout = layout;
    this.#vectors = new Rows(Float64Array, dims);
    this.#numbers = new Rows(Float64Array, layout.numbers);
    this.#met = new Rows(Uint8Array, layout.wants.length + layout.limits.length);
  }

  /** What a log holds, or its first so many entries. @throws StudyError as `add` */
  static of(
    log: { readonly size: number; at(candidate: number): Entry },
    dims: number,
    layout: Layout,
    count = log.size,
  ): StudyTable {
    const table = new StudyTable(dims, layout);
    while (table.size < count) table.add(log.at(table.size));
    return table;
  }

  get size(): number {
    return this.#size;
  }

  /** @throws StudyError for an entry of other dims, and for one of an earlier program that kept other numbers of a dummy */
  add({ stage, vector, row }: Entry): void {
    const numbers = this.#layout.filled(row.numbers);
    const how =
      vector.length !== this.dims
        ? `has ${counted(vector.length, 'dim')} where its figure has ${this.dims}`
        : row.met.length !== this.#met.width
          ? `was scored by an earlier program, which judged ${counted(row.met.length, 'want or limit', 'wants and limits')} where this one judges ${this.#met.width}`
          : numbers.length !== this.#numbers.width
            ? 'was scored by an earlier program, which kept other numbers of a dummy than this one does'
            : null;
    if (how !== null)
      throw new StudyError(`Candidate ${this.#size + 1} of the study ${how}. Explore the figure again.`);
    if (!this.#stages.includes(stage)) this.#stages.push(stage);
    this.#stageOf.set(this.#size, [this.#stages.indexOf(stage)]);
    this.#outcomes.set(this.#size, [OUTCOMES.indexOf(row.outcome)]);
    this.#vectors.set(this.#size, vector);
    this.#numbers.set(this.#size, numbers);
    this.#met.set(this.#size, row.met);
    this.#size++;
  }

  stage(candidate: number): string {
    return this.#stages[this.#stageOf.at(candidate)[0]];
  }

  outcome(candidate: number): Outcome {
    return OUTCOMES[this.#outcomes.at(candidate)[0]];
  }

  vector(candidate: number): Float64Array {
    return this.#vectors.at(candidate);
  }

  numbers(candidate: number): Float64Array {
    return this.#numbers.at(candidate);
  }

  /** 1 where met: for each want, then for each limit. */
  met(candidate: number): Uint8Array {
    return this.#met.at(candidate);
  }

  /** Whether the first candidate is the one that the figure file describes. */
  get hasOwn(): boolean {
    return this.#stages[0] === OWN;
  }

  /**
   * Whether a candidate is of the first stage, which spreads them evenly through the ranges, whatever its name: the
   * first after the maker's own, if there is one.
   */
  isSpread(candidate: number): boolean {
    const first = this.hasOwn && this.#stages.length > 1 ? 1 : 0;
    return this.#stageOf.at(candidate)[0] === first;
  }

  /** The candidates that were spread evenly through the ranges. */
  spread(): number[] {
    return this.where((candidate) => this.isSpread(candidate));
  }

  /** The candidates that a test picks, in the order of their numbers. It is asked twice of each. */
  where(test: (candidate: number) => boolean): number[] {
    // Counted first: an array of a million that grows leaves two more behind.
    let count = 0;
    for (let candidate = 0; candidate < this.#size; candidate++) if (test(candidate)) count++;
    const picked = new Array<number>(count);
    count = 0;
    for (let candidate = 0; candidate < this.#size; candidate++)
      if (test(candidate)) picked[count++] = candidate;
    return picked;
  }
}

/** Rows of numbers in one array that doubles when it is full. */
class Rows<A extends Float64Array | Uint8Array> {
  readonly #kind: new (
    length: number,
  ) => A;
  #data: A;

  constructor(
    kind: new (length: number) => A,
    readonly width: number,
  ) {
    this.#kind = kind;
    this.#data = new kind(64 * width);
  }

  set(row: number, values: ArrayLike<number>): void {
    if ((row + 1) * this.width > this.#data.length) {
      const wider = new this.#kind(2 * this.#data.length);
      wider.set(this.#data);
      this.#data = wider;
    }
    this.#data.set(values, row * this.width);
  }

  /** A view, not a copy. */
  at(row: number): A {
    return this.#data.subarray(row * this.width, (row + 1) * this.width) as A;
  }
}
