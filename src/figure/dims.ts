import { CannotBuild } from '../motion/cannot-build.js';
import { readDims, type WrittenDim } from './dim-file.js';
import {
  compileArithmetic,
  type Expression,
  type Formula,
  type Measure,
  tellUnits,
  type Unit,
} from './text/arithmetic.js';
import { faultAt } from './text/check.js';
import { type Path, quoted } from './text/input-error.js';
import { knownNames } from './text/near.js';
import { inOrder } from './text/order.js';
import type { FigureSource } from './text/source.js';

/** A dim of the figure. */
export interface Dim {
  readonly name: string;
  readonly kind: WrittenDim['kind'];
  /** As given, else as its first use tells; empty where that tells nothing. */
  readonly unit: Unit;
}

/** A dim that is free to vary: a range, or a choice of two or more. */
export type FreeDim =
  | {
      readonly name: string;
      readonly kind: 'real';
      readonly unit: Unit;
      readonly min: number;
      readonly max: number;
      /** With a step, the values to try are min + k · step. Other values may be scored all the same. */
      readonly step?: number;
      readonly start: number;
    }
  | {
      readonly name: string;
      readonly kind: 'choice';
      readonly unit: Unit;
      readonly options: readonly string[] | readonly number[];
    };

/** Words for places along a line. */
const ENDS: readonly string[] = ['start', 'middle', 'end'];

/**
 * The dims of a figure, and the slot in which each dim's value stands for the candidate at hand: for a choice between
 * words the place of the word among its options (from 0), for all others the number itself.
 *
 * A vector holds the free dims in file order (for a choice, the place of the option). It may go on with the values of
 * all dims that are written as plain numbers, in file order: then these count instead of what the file says.
 */
export class Dims {
  readonly #source: FigureSource;
  /** Filled by `fill`; reused from one candidate to the next. */
  readonly slots: Float64Array;
  readonly written: readonly WrittenDim[];
  readonly freeDims: readonly WrittenDim[];
  readonly fixedDims: readonly (WrittenDim & { kind: 'number' })[];
  readonly #slotByName = new Map<string, number>();
  readonly #units = new Map<string, Unit>();
  /** What uses each dim: other dims, by name; and null for all else. */
  readonly #users = new Map<string, Set<string | null>>();
  readonly #setFree: ((vector: Float64Array, slots: Float64Array) => void)[] = [];
  readonly #arithmetic: { name: string; slot: number; formula: Formula }[];

  constructor(source: FigureSource) {
    this.#source = source;
    this.written = readDims(source);
    this.slots = new Float64Array(this.written.length + ENDS.length);
    for (const [slot, dim] of this.written.entries()) {
      this.#slotByName.set(dim.name, slot);
      if (dim.unit !== undefined) this.#units.set(dim.name, dim.unit);
    }
    this.freeDims = this.written.filter(isFree);
    this.fixedDims = this.written.filter((dim) => dim.kind === 'number');
    for (const [place, dim] of this.freeDims.entries()) this.#setFree.push(this.#setter(dim, place));
    for (const dim of this.written)
      if (dim.kind === 'choice' && !isFree(dim))
        this.slots[this.slotOf(dim.name)] = typeof dim.options[0] === 'number' ? dim.options[0] : 0;
    const expressions = new Map<string, Expression>();
    for (const dim of this.written) if (dim.kind === 'arithmetic') expressions.set(dim.name, dim.expression);
    const path = (name: string): Path => ['dims', name];
    this.#arithmetic = inOrder(expressions, (names) => {
      throw faultAt(
        source,
        path(names[0]),
        'break the circle: give one of them a number or a range',
        `a circle: ${names.join(' → ')}`,
      );
    }).map(([name, expression]) => {
      const { formula, constant } = this.compile(expression, path(name));
      if (constant && !Number.isFinite(formula(this.slots)))
        throw faultAt(source, path(name), 'give arithmetic whose result is a number');
      return { name, slot: this.slotOf(name), formula };
    });
  }

  /** Puts the values of all dims in their slots. Throws CannotBuild where arithmetic gives no number. */
  fill(vector: Float64Array): void {
    const free = this.#setFree.length;
    const fixed = this.fixedDims.length;
    if (vector.length !== free && vector.length !== free + fixed)
      throw new RangeError(`a vector of ${vector.length} dims, where ${free} are free`);
    for (const set of this.#setFree) set(vector, this.slots);
    for (const [place, dim] of this.fixedDims.entries())
      this.slots[this.slotOf(dim.name)] = vector.length > free ? vector[free + place] : dim.value;
    for (const { name, slot, formula } of this.#arithmetic) {
      const value = formula(this.slots);
      if (!Number.isFinite(value))
        throw new CannotBuild(`the arithmetic of dim '${name}' gives no number here`, `dims.${name}`);
      this.slots[slot] = value;
    }
  }

  /**
   * Compiles arithmetic at a path of the figure file.
   * @param measure how something is measured on the figure, where there is one yet
   * @param along whether it counts along a line: then start, middle and end are the places put in by `putEnds`, unless a
   *   dim has that name
   */
  compile(
    expression: Expression,
    path: Path,
    measure?: (asked: Measure, opened: Formula | undefined) => Formula,
    along = false,
  ): { formula: Formula; constant: boolean } {
    const slotOf = (name: string, at: number): number => {
      const dim = this.named(name);
      const end = along ? ENDS.indexOf(name) : -1;
      if (dim === undefined && end >= 0) return this.written.length + end;
      if (dim === undefined && isPlace(this.#source, name))
        throw faultAt(
          this.#source,
          path,
          `where a point is asked for, write '${name}' alone; in arithmetic, along(${name} on …) or up(${name} on …)`,
          `the place '${name}' where a number stands`,
          at,
        );
      if (dim === undefined)
        throw faultAt(
          this.#source,
          path,
          knownNames(
            name,
            this.written.map((known) => known.name),
            'dim',
          ),
          quoted(name),
          at,
        );
      if (wordsOf(dim) !== undefined)
        throw faultAt(this.#source, path, 'use a dim that is a number', `'${name}', a choice of words`, at);
      this.usedBy(name, path);
      return this.slotOf(name);
    };
    return compileArithmetic(expression, slotOf, (asked, opened) => {
      if (measure !== undefined) return measure(asked, opened);
      throw faultAt(
        this.#source,
        path,
        'write it in the part that needs it: dims are there before any part is',
        `'${asked.of}', which is measured on the figure`,
        asked.at,
      );
    });
  }

  /** Puts in what start, middle and end are: mm along a line. */
  putEnds(long: number): void {
    const first = this.written.length;
    this.slots[first] = 0;
    this.slots[first + 1] = long / 2;
    this.slots[first + 2] = long;
  }

  named(name: string): WrittenDim | undefined {
    const slot = this.#slotByName.get(name);
    return slot === undefined ? undefined : this.written[slot];
  }

  slotOf(name: string): number {
    return this.#slotByName.get(name) ?? -1;
  }

  /** Takes down that a field at this path of the figure file uses a dim. */
  usedBy(name: string, path: Path): void {
    const users = this.#users.get(name) ?? new Set();
    this.#users.set(name, users.add(path[0] === 'dims' ? String(path[1]) : null));
  }

  /** The dims that change nothing: no field uses them, nor a dim that a field uses; in file order. */
  unused(): string[] {
    const used = new Set<string>();
    // A dim is used where one of its users is; the longest chain of them has as many links as there are dims.
    for (let grew = true; grew; ) {
      const before = used.size;
      for (const [name, users] of this.#users)
        if ([...users].some((user) => user === null || used.has(user))) used.add(name);
      grew = used.size > before;
    }
    return this.written.map(({ name }) => name).filter((name) => !used.has(name));
  }

  /** Learns the units of dims from arithmetic whose result has a unit. What was learnt first stays. */
  learnUnits(expression: Expression, unit: Unit): void {
    if (unit === '') return;
    tellUnits(expression, unit, (name, inUnit) => {
      if (this.#units.has(name)) return;
      const dim = this.named(name);
      if (dim === undefined) return;
      this.#units.set(name, inUnit);
      if (dim.kind === 'arithmetic') this.learnUnits(dim.expression, inUnit);
    });
  }

  unitOf(name: string): Unit {
    return this.#units.get(name) ?? '';
  }

  all(): Dim[] {
    return this.written.map(({ name, kind }) => ({ name, kind, unit: this.unitOf(name) }));
  }

  free(): FreeDim[] {
    return this.freeDims.map((dim): FreeDim => {
      const { name } = dim;
      const unit = this.unitOf(name);
      if (dim.kind === 'choice') return { name, kind: 'choice', unit, options: dim.options };
      if (dim.kind !== 'range') throw new TypeError(`${name} is not free`);
      const { from: min, to: max, start, step } = dim;
      return { name, kind: 'real', unit, min, max, start, ...(step === undefined ? {} : { step }) };
    });
  }

  /** The free dims as they start: a range at its start value, else its middle; a choice at its first. */
  start(): Float64Array {
    return Float64Array.from(this.freeDims, (dim) => (dim.kind === 'range' ? dim.start : 0));
  }

  /** Every dim's value for a candidate, in file order: a number, or the chosen word. */
  values(vector: Float64Array): Map<string, number | string> {
    this.fill(vector);
    return new Map(
      this.written.map((dim, slot) => [dim.name, wordsOf(dim)?.[this.slots[slot]] ?? this.slots[slot]]),
    );
  }

  #setter(dim: WrittenDim, place: number): (vector: Float64Array, slots: Float64Array) => void {
    const slot = this.slotOf(dim.name);
    if (dim.kind !== 'choice')
      return (vector, slots) => {
        slots[slot] = vector[place];
      };
    const options: readonly (string | number)[] = dim.options;
    const values = Float64Array.from(options, (option, i) => (typeof option === 'number' ? option : i));
    const last = values.length - 1;
    return (vector, slots) => {
      slots[slot] = values[Math.min(last, Math.max(0, Math.round(vector[place])))];
    };
  }
}

const isFree = (dim: WrittenDim): boolean =>
  dim.kind === 'range' || (dim.kind === 'choice' && dim.options.length > 1);

/** The words of a dim that chooses between words. */
export function wordsOf(dim: WrittenDim): readonly string[] | undefined {
  return dim.kind === 'choice' && typeof dim.options[0] === 'string'
    ? (dim.options as readonly string[])
    : undefined;
}

/** Whether a file has a place of this name. */
function isPlace({ data }: FigureSource, name: string): boolean {
  if (data === null || typeof data !== 'object' || Array.isArray(data)) return false;
  const { places } = data;
  return places !== null && typeof places === 'object' && Object.hasOwn(places, name);
}
