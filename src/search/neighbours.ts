import { quickselect } from 'simple-statistics';
import type { Candidate } from './archive.js';
import type { Expected, Foresight } from './expected.js';
import { solve } from './least-squares.js';
import { violationOf } from './pareto.js';
import { encoded, inputsOf } from './surrogate-data.js';
import type { Space } from './variables.js';

/** A fit takes so many neighbours for each of its coefficients. */
const FOR_EACH = 4;
/** How much slopes are drawn to zero: what that weighs beside a neighbour that lies about as far off in each dim. */
const RIDGE = 0.02;
/** What keeps a fit to neighbours that all lie in one place from dividing by nothing. */
const LEAST = 1e-9;

/**
 * What points would score, judged by those that were scored near them: about each of some centres, each objective and the odds
 * of being sound are taken for linear in the dims, fitted by weighted least squares to the nearest that are known (locally
 * weighted regression: W. S. Cleveland, S. J. Devlin, Journal of the American Statistical Association 83, 1988, from memory; weights
 * (1 − d²/r²)², r the distance of the farthest). A point is judged by the fit about the centre that is nearest to it.
 *
 * Slopes are drawn to zero a little (A. E. Hoerl, R. W. Kennard, Technometrics 12, 1970, from memory), so that a dim in which all
 * neighbours are alike has none.
 */
export class Neighbours implements Foresight {
  /** What lies on a limit fails one time in two, and cut by hand as often: of ferrymen those found with 0.3 are worth less. */
  readonly soundFrom = 0.6;
  readonly #space: Space;
  readonly #inputs: number;
  readonly #width: number;
  readonly #centers: Float32Array;
  readonly #known: Float32Array;
  /** Objectives of the known row by row, NaN for those that are not sound: they tell of the odds alone. */
  readonly #objectives: Float64Array;
  /** 1 for those that are sound. */
  readonly #sound: Float64Array;
  /** An objective that was never below 0 tells how far it is to what is wanted: there it ends. */
  readonly #least: Float64Array;
  /** About each centre: a row to the centre itself and to each input, a column to each objective, or to the odds. */
  readonly #fits: readonly { objectives: Float64Array; odds: Float64Array }[];

  /**
   * @param centers about which points will be asked for, one or more
   * @param known what was scored, one or more
   */
  constructor(space: Space, centers: readonly Candidate[], known: readonly Candidate[]) {
    this.#space = space;
    this.#inputs = inputsOf(space);
    this.#width = known[0].scored.objectives.length;
    this.#centers = encoded(
      space,
      centers.map(({ unit }) => unit),
    );
    this.#known = encoded(
      space,
      known.map(({ unit }) => unit),
    );
    this.#objectives = new Float64Array(known.length * this.#width).fill(Number.NaN);
    this.#sound = new Float64Array(known.length);
    this.#least = new Float64Array(this.#width);
    for (const [k, { scored }] of known.entries()) {
      if (violationOf(scored) > 0) continue;
      this.#sound[k] = 1;
      if (!scored.objectives.every((value) => Number.isFinite(value))) continue;
      this.#objectives.set(scored.objectives, k * this.#width);
      for (const [j, value] of scored.objectives.entries())
        if (value < 0) this.#least[j] = Number.NEGATIVE_INFINITY;
    }
    this.#fits = centers.map((_, center) => this.#fitAbout(center));
  }

  expect(units: readonly Float64Array[]): Expected {
    const expected: Expected = {
      objectives: [],
      spread: units.map(() => new Float64Array(this.#width)),
      violation: new Float64Array(units.length),
      sound: new Float64Array(units.length),
    };
    const points = encoded(this.#space, units);
    const at = new Float64Array(this.#inputs + 1);
    for (let i = 0; i < units.length; i++) {
      const center = this.#nearest(points, i);
      const { objectives, odds } = this.#fits[center];
      this.#place(center, points, i, at);
      expected.objectives.push(said(objectives, at).map((value, j) => Math.max(this.#least[j], value)));
      [expected.sound[i]] = said(odds, at);
    }
    return expected;
  }

  #fitAbout(center: number): { objectives: Float64Array; odds: Float64Array } {
    const size = this.#inputs + 1;
    const count = this.#sound.length;
    const away = new Float64Array(count);
    for (let k = 0; k < count; k++) away[k] = this.#squareApart(center, this.#known, k);
    const last = Math.min(count, FOR_EACH * size) - 1;
    const nearest: number[] = [];
    for (let k = 0; k < count; k++) nearest.push(away[k]);
    quickselect(nearest, last);
    const reach = nearest[last];
    const objectives = new Fit(size, this.#width);
    const odds = new Fit(size, 1);
    const at = new Float64Array(size);
    for (let k = 0; k < count; k++) {
      if (away[k] > reach) continue;
      const weight = reach > 0 ? (1 - away[k] / reach) ** 2 : 1;
      this.#place(center, this.#known, k, at);
      if (Number.isNaN(this.#objectives[k * this.#width])) odds.add(weight, at, this.#sound, k);
      else objectives.add(weight, at, this.#objectives, k * this.#width);
    }
    odds.addAll(objectives);
    const ridge = (RIDGE * reach) / this.#inputs;
    return { objectives: objectives.solved(ridge), odds: odds.solved(ridge) };
  }

  #nearest(points: Float32Array, point: number): number {
    let nearest = 0;
    let least = Number.POSITIVE_INFINITY;
    for (let center = 0; center < this.#fits.length; center++) {
      const away = this.#squareApart(center, points, point);
      if (away >= least) continue;
      least = away;
      nearest = center;
    }
    return nearest;
  }

  #squareApart(center: number, points: Float32Array, point: number): number {
    const inputs = this.#inputs;
    const centers = this.#centers;
    let sum = 0;
    for (let i = 0, p = point * inputs, q = center * inputs; i < inputs; i++, p++, q++) {
      const step = points[p] - centers[q];
      sum += step * step;
    }
    return sum;
  }

  /** Where a point lies, seen from a centre: 1 for the centre itself, then the step in each input. */
  #place(center: number, points: Float32Array, point: number, out: Float64Array): void {
    const inputs = this.#inputs;
    out[0] = 1;
    for (let i = 0; i < inputs; i++)
      out[i + 1] = points[point * inputs + i] - this.#centers[center * inputs + i];
  }
}

/** Weighted least squares, gathered neighbour by neighbour. */
class Fit {
  readonly #normal: Float64Array;
  readonly #sides: Float64Array;
  #weight = 0;

  constructor(size: number, width: number) {
    this.#normal = new Float64Array(size * size);
    this.#sides = new Float64Array(size * width);
  }

  /** @param from where what it scores begins in `scores` */
  add(weight: number, at: Float64Array, scores: Float64Array, from: number): void {
    const normal = this.#normal;
    const sides = this.#sides;
    const size = at.length;
    const width = sides.length / size;
    this.#weight += weight;
    for (let i = 0, row = 0, side = 0; i < size; i++, row += size) {
      const share = weight * at[i];
      for (let j = 0; j <= i; j++) normal[row + j] += share * at[j];
      for (let j = 0; j < width; j++) sides[side++] += share * scores[from + j];
    }
  }

  /** Adds all that another fit has gathered, as neighbours that score 1: what they weigh there is its first column. */
  addAll(other: Fit): void {
    const size = this.#sides.length;
    this.#weight += other.#weight;
    for (let i = 0; i < this.#normal.length; i++) this.#normal[i] += other.#normal[i];
    for (let i = 0; i < size; i++) this.#sides[i] += other.#normal[i * size];
  }

  /** The coefficients. @param ridge what draws each slope to zero, for a weight of 1 */
  solved(ridge: number): Float64Array {
    const size = Math.sqrt(this.#normal.length);
    for (let i = 0; i < size; i++) this.#normal[i * size + i] += (i === 0 ? 0 : ridge * this.#weight) + LEAST;
    solve(this.#normal, this.#sides, size);
    return this.#sides;
  }
}

/** What a fit says of a place. */
function said(fit: Float64Array, at: Float64Array): Float64Array {
  const width = fit.length / at.length;
  const values = new Float64Array(width);
  for (let i = 0; i < at.length; i++) for (let j = 0; j < width; j++) values[j] += at[i] * fit[i * width + j];
  return values;
}
