import type { Candidate } from './archive.js';
import { violationOf } from './pareto.js';
import { mix, type Random } from './random.js';
import type { Lesson } from './surrogate-net.js';
import type { Space } from './variables.js';

/** Targets further from the mean are pulled in to so many standard deviations, lest a few wild ones rule. */
const CLIP = 4;
/** One candidate in so many is kept from training, to tell how well the rest was learnt. */
const KEPT_BACK = 10;
/** Half of each lesson comes from the newest rows: that is where the search is now. */
const NEWEST = 1000;

/** How one amount is brought to mean 0 and deviation 1. */
export interface Scale {
  mean: number;
  deviation: number;
}

/**
 * What a surrogate learns from, as rows of numbers. Inputs: dims from -1 to 1, choices one option a column. Targets: the
 * objectives, the root of the violation, whether no limit is broken, and the kinds of failure; NaN where not known.
 */
export class SurrogateData {
  readonly inputs: number;
  readonly outputs: number;
  /** The first so many outputs are amounts, the others odds. */
  readonly amounts: number;
  readonly learnt: { input: Float32Array; target: Float32Array }[] = [];
  readonly keptBack: { input: Float32Array; target: Float32Array }[] = [];
  readonly #space: Space;
  #count = 0;

  constructor(space: Space, objectives: number, failures: number) {
    this.#space = space;
    this.inputs = inputsOf(space);
    this.amounts = objectives + 1;
    this.outputs = this.amounts + 1 + failures;
  }

  add({ unit, scored }: Candidate): void {
    const violation = violationOf(scored);
    const target = Float32Array.from([
      ...scored.objectives,
      // The root, for a violation has a long tail and what matters is where it reaches zero.
      Math.sqrt(violation),
      violation === 0 ? 1 : 0,
      ...(scored.failures ?? []),
    ]);
    const row = { input: this.encode([unit]), target };
    // Not each tenth: those would all lie in one half of the cube, for neighbours in a Sobol sequence take turns.
    (mix(this.#count++) % KEPT_BACK === 1 ? this.keptBack : this.learnt).push(row);
  }

  /** Flat rows of inputs. */
  encode(units: readonly Float64Array[]): Float32Array {
    return encoded(this.#space, units);
  }

  /** Mean and deviation of each amount over the first `rows` learnt rows. */
  scales(rows: number): Scale[] {
    return Array.from({ length: this.amounts }, (_, j) => scaleOf(rows, (i) => this.learnt[i].target[j]));
  }

  /** A mini-batch drawn from the first `rows` learnt rows. */
  lesson(random: Random, rows: number, size: number, scales: readonly Scale[]): Lesson {
    const inputs = new Float32Array(size * this.inputs);
    const targets = new Float32Array(size * this.outputs);
    const weights = new Float32Array(size * this.outputs);
    for (let b = 0; b < size; b++) {
      const newest = Math.min(rows, NEWEST);
      const row = this.learnt[b % 2 === 0 ? random.below(rows) : rows - 1 - random.below(newest)];
      inputs.set(row.input, b * this.inputs);
      row.target.forEach((value, j) => {
        if (!Number.isFinite(value)) return;
        targets[b * this.outputs + j] = j < this.amounts ? scaled(value, scales[j]) : value;
        weights[b * this.outputs + j] = 1 / size;
      });
    }
    return { rows: size, inputs, targets, weights };
  }
}

/** How many inputs stand for a point: a dim one, a choice one for each option. */
export function inputsOf(space: Space): number {
  return space.variables.reduce((sum, v) => sum + (v.kind === 'choice' ? v.options : 1), 0);
}

/** Points of the unit cube as flat rows of inputs: dims from -1 to 1, and 1 for the option of a choice. */
export function encoded(space: Space, units: readonly Float64Array[]): Float32Array {
  const rows = new Float32Array(units.length * inputsOf(space));
  let at = 0;
  for (const unit of units) {
    space.variables.forEach((v, i) => {
      if (v.kind === 'choice') {
        rows[at + Math.min(v.options - 1, Math.floor(unit[i] * v.options))] = 1;
        at += v.options;
      } else rows[at++] = 2 * unit[i] - 1;
    });
  }
  return rows;
}

/** Mean and deviation of a number over rows; those that are not known are left out. */
export function scaleOf(rows: number, of: (row: number) => number): Scale {
  let [count, sum, squares] = [0, 0, 0];
  for (let i = 0; i < rows; i++) {
    const value = of(i);
    if (!Number.isFinite(value)) continue;
    count++;
    sum += value;
    squares += value * value;
  }
  if (count === 0) return { mean: 0, deviation: 1 };
  const mean = sum / count;
  // An amount that never changes has no deviation to divide by.
  return { mean, deviation: Math.sqrt(Math.max(0, squares / count - mean * mean)) || 1 };
}

export function scaled(value: number, { mean, deviation }: Scale): number {
  return Math.max(-CLIP, Math.min(CLIP, (value - mean) / deviation));
}
