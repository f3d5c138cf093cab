import type { Variable } from './evaluator.js';
import { mix } from './random.js';

/** Real dims move on a grid this fine, so that a point is the same to the last bit when it comes back from its values. */
const GRID = 2 ** 32;

/**
 * The free dims of a study as a unit cube, and back. Search works in the cube, where all dims weigh alike; the middle of
 * a cell stands for a stepped value or a choice. A point that went through `snap` comes back from its values unchanged.
 */
export class Space {
  readonly variables: readonly Variable[];
  /** For each variable how many values it has, 0 where they are a continuum. */
  readonly cells: Int32Array;
  /** Which variables are choices: their cells have no order. */
  readonly isChoice: readonly boolean[];

  constructor(variables: readonly Variable[]) {
    if (variables.length === 0) throw new RangeError('There is nothing to search: no dim is free.');
    this.variables = variables;
    this.cells = Int32Array.from(variables, countCells);
    this.isChoice = variables.map((v) => v.kind === 'choice');
  }

  get size(): number {
    return this.variables.length;
  }

  /** Values of the dims at a point of the unit cube. A coordinate outside [0, 1] counts as its nearest end. */
  toValues(unit: ArrayLike<number>, out: Float64Array = new Float64Array(this.size)): Float64Array {
    for (let i = 0; i < this.size; i++) {
      const v = this.variables[i];
      const u = Math.min(1, Math.max(0, unit[i]));
      const cell = Math.min(this.cells[i] - 1, Math.floor(u * this.cells[i]));
      if (v.kind === 'choice') out[i] = cell;
      // The last step can come out above max by round-off, and so can the end of a range.
      else if (v.step) out[i] = Math.min(v.max, v.min + cell * v.step);
      else out[i] = Math.min(v.max, v.min + u * (v.max - v.min));
    }
    return out;
  }

  /** The point of the unit cube that stands for these values; stepped values go to the nearest step. */
  toUnit(values: ArrayLike<number>, out: Float64Array = new Float64Array(this.size)): Float64Array {
    for (let i = 0; i < this.size; i++) {
      const v = this.variables[i];
      if (v.kind === 'choice') out[i] = (values[i] + 0.5) / v.options;
      else if (v.step) out[i] = (this.#nearestStep(i, values[i] - v.min, v.step) + 0.5) / this.cells[i];
      else out[i] = v.max > v.min ? onGrid((values[i] - v.min) / (v.max - v.min)) : 0.5;
    }
    return out;
  }

  /** Moves a point, in place, to the nearest that stands for values: into the cube, on the grid, or mid-cell. */
  snap(unit: Float64Array): Float64Array {
    for (let i = 0; i < this.size; i++) {
      const v = this.variables[i];
      const count = this.cells[i];
      if (count > 0) unit[i] = (Math.max(0, Math.min(count - 1, Math.floor(unit[i] * count))) + 0.5) / count;
      else unit[i] = v.kind === 'real' && v.max > v.min ? onGrid(unit[i]) : 0.5;
    }
    return unit;
  }

  #nearestStep(i: number, above: number, step: number): number {
    return Math.min(this.cells[i] - 1, Math.max(0, Math.round(above / step)));
  }
}

function onGrid(u: number): number {
  return Math.min(1, Math.max(0, Math.round(u * GRID) / GRID));
}

function countCells(v: Variable): number {
  if (v.kind === 'choice') {
    if (!(Number.isInteger(v.options) && v.options >= 1)) {
      throw new RangeError(`The choice "${v.name}" needs at least one option.`);
    }
    return v.options;
  }
  if (!(v.min <= v.max && Number.isFinite(v.max - v.min))) {
    throw new RangeError(`The range of "${v.name}" must run from a number up to a number.`);
  }
  if (v.step === undefined) return 0;
  if (!(v.step > 0)) throw new RangeError(`The step of "${v.name}" must be above zero.`);
  // A millionth of a step of round-off must not cost the last value.
  return Math.floor((v.max - v.min) / v.step + 1e-6) + 1;
}

const bits = new Uint32Array(2);
const double = new Float64Array(bits.buffer);

/** A number of 53 bits that stands for a point: the same for the same point, another for another in all likelihood. */
export function fingerprint(unit: Float64Array): number {
  let [high, low] = [1, 2];
  for (const u of unit) {
    double[0] = u;
    high = mix(high ^ mix(bits[0] ^ mix(bits[1])));
    low = mix(low + mix(bits[1] + mix(bits[0])));
  }
  return (high >>> 11) * 4294967296 + low;
}
