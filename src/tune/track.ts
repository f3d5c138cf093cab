import type { Row } from '../study/row.js';
import { type Cost, type Done, distance } from './change.js';
import type { Move } from './moves.js';

/** Changes that were tried, and what came of them. */
export interface Attempt {
  readonly done: readonly Done[];
  readonly vector: Float64Array;
  readonly row: Row;
  readonly badness: number;
  readonly cost: Cost;
}

/** So many amounts in a row that do no good are enough to see that larger ones do none either. */
const PATIENCE = 2;
/** A difference of badness that is none. */
const SAME = 1e-9;

/** What came of one move at several amounts. */
export class Track {
  readonly #points: { amount: number; badness: number; isCostly: boolean }[] = [
    { amount: 0, badness: Number.POSITIVE_INFINITY, isCostly: false },
  ];
  best: Attempt | null = null;

  /** @param price of the move */
  constructor(
    readonly move: Move,
    readonly price: number,
  ) {}

  /** @param isCostly whether it takes card that nobody asked for */
  note(amount: number, attempt: Attempt, isCostly: boolean): void {
    this.#points.push({ amount, badness: attempt.badness, isCostly });
    if (this.best === null || attempt.badness < this.best.badness) this.best = attempt;
  }

  /** Amounts that work. */
  get working(): number[] {
    return this.#points.filter(({ badness }) => badness === 0).map(({ amount }) => amount);
  }

  /** How far the smallest amount goes that works and takes no card; infinite where none does. */
  get least(): number {
    const free = this.#points.filter(({ badness, isCostly }) => badness === 0 && !isCostly);
    return Math.min(...free.map(({ amount }) => distance({ move: this.move, amount })), Infinity);
  }

  /** The largest amount below a working one, on its side, that does not work; 0 if none is known. */
  failingBelow(working: number): number {
    const below = this.#points.filter(
      ({ amount, badness }) => badness > 0 && amount * working > 0 && Math.abs(amount) < Math.abs(working),
    );
    return below.reduce((most, { amount }) => (Math.abs(amount) > Math.abs(most) ? amount : most), 0);
  }

  /**
   * Whether to go on to an amount: not where the last two on its side did no more good than what is nearer.
   * @param isPlace where something stands: as long as nothing changes at all by that, nothing is known yet, since what lies wholly beside
   *   the card is as wrong a millimetre farther in
   */
  leadsOn(amount: number, startBadness: number, isPlace: boolean): boolean {
    const side = this.#points
      .filter((point) => point.amount * amount > 0 && Math.abs(point.amount) < Math.abs(amount))
      .sort((a, b) => Math.abs(a.amount) - Math.abs(b.amount))
      .map(({ badness }) => badness);
    const nearer = Math.min(startBadness, ...side.slice(0, -PATIENCE));
    const isLevel = isPlace && side.every((badness) => Math.abs(badness - startBadness) < SAME);
    return side.length < PATIENCE || isLevel || side.slice(-PATIENCE).some((badness) => badness < nearer);
  }

  /** The middles of the two gaps beside the best amount. */
  around(startBadness: number): number[] {
    const sorted = this.#points
      .map(({ amount, badness }) => ({ amount, badness: amount === 0 ? startBadness : badness }))
      .sort((a, b) => a.amount - b.amount);
    const at = sorted.reduce((best, point, i) => (point.badness < sorted[best].badness ? i : best), 0);
    return [at - 1, at + 1]
      .filter((i) => i >= 0 && i < sorted.length)
      .map((i) => (sorted[i].amount + sorted[at].amount) / 2);
  }
}
