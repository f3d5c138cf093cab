import { cell } from './cells.js';
import type { Column } from './columns.js';
import type { Bounds } from './filters.js';

const MARGIN = 10;

/** One upright axis of the parallel coordinates: between a column's values and heights on the board, px from its top. */
export class Upright {
  readonly #column: Column;
  readonly high = MARGIN;
  readonly low: number;

  constructor(column: Column, height: number) {
    this.#column = column;
    this.low = height - MARGIN;
  }

  /** The height of a candidate's value; NaN where it was not computed. */
  at(place: number): number {
    return this.#heightOf(this.#column.values[place]);
  }

  /** What stands at the upper and lower end. */
  get top(): string {
    return this.#column.options === null ? cell(this.#column, this.#column.most) : '';
  }

  get bottom(): string {
    return this.#column.options === null ? cell(this.#column, this.#column.least) : '';
  }

  /** The options of a choice, each at its height: those between which the dummies lie. */
  get optionMarks(): { at: number; text: string }[] {
    const { options, least, most } = this.#column;
    return (options ?? []).flatMap((text, place) =>
      place < least || place > most ? [] : [{ at: this.#heightOf(place), text }],
    );
  }

  /** The bounds that a stretch of the axis stands for. */
  between(from: number, to: number): Bounds {
    const [upper, lower] = [Math.min(from, to), Math.max(from, to)];
    const { options, least, most } = this.#column;
    if (options !== null) {
      const inside = options.flatMap((_, place) => {
        const at = this.#heightOf(place);
        return at >= upper && at <= lower ? [place] : [];
      });
      return { options: new Set(inside) };
    }
    // Pulled over its end, a brush takes the end in whole.
    return {
      low: lower >= this.low ? least : this.#valueAt(lower),
      high: upper <= this.high ? most : this.#valueAt(upper),
    };
  }

  /** The stretches of the axis that bounds leave, each from its upper to its lower end. */
  spans(bounds: Bounds): [number, number][] {
    if ('options' in bounds)
      return [...bounds.options].map((place) => [this.#heightOf(place) - 8, this.#heightOf(place) + 8]);
    const { least, most } = this.#column;
    return [[this.#heightOf(Math.min(most, bounds.high)), this.#heightOf(Math.max(least, bounds.low))]];
  }

  #heightOf(value: number): number {
    const { least, most } = this.#column;
    return this.low - ((value - least) / (most - least)) * (this.low - this.high);
  }

  #valueAt(height: number): number {
    const { least, most } = this.#column;
    return least + ((this.low - height) / (this.low - this.high)) * (most - least);
  }
}
