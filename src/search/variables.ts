import type { Variable } from './evaluator.js';

/**
 * The free dims of a study as a unit cube, and back. Search works in the cube, where all dims weigh alike; the middle of
 * a cell stands for a stepped value or a choice, so that a vector that went through `snap` comes back unchanged.
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
      else out[i] = v.max > v.min ? Math.min(1, Math.max(0, (values[i] - v.min) / (v.max - v.min))) : 0.5;
    }
    return out;
  }

  /** Moves a point, in place, to one that stands for real values: into the cube, and to the middle of its cell. */
  snap(unit: Float64Array): Float64Array {
    for (let i = 0; i < this.size; i++) {
      const u = Math.min(1, Math.max(0, unit[i]));
      const count = this.cells[i];
      unit[i] = count === 0 ? u : (Math.min(count - 1, Math.floor(u * count)) + 0.5) / count;
    }
    return unit;
  }

  #nearestStep(i: number, above: number, step: number): number {
    return Math.min(this.cells[i] - 1, Math.max(0, Math.round(above / step)));
  }
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

/** Whether two snapped points stand for the same values. */
export function samePoint(a: ArrayLike<number>, b: ArrayLike<number>): boolean {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}
