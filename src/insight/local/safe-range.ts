import type { Variable } from '../../search/evaluator.js';
import { answerAll, type Verdicts } from '../sensitivity/batch.js';

/** One end of a safe range. */
export interface SafeEnd {
  /** The farthest value, in mm or degrees, up to which every limit was found to hold. */
  value: number;
  /** What fails just beyond; null where the range itself ends here and still works. */
  failure: string | null;
}

export interface SafeRange {
  /** Null when there is none to speak of; `reason` then says why. */
  range: { low: SafeEnd; high: SafeEnd } | null;
  reason: string | null;
}

/** How finely one dim is walked. Units: mm or degrees. */
export interface Walk {
  /** Step of the walk outward. A stretch of failing values narrower than this can be stepped over and missed. */
  coarse: number;
  /** Each end is found to within this: 0.05 mm or 0.1°, as a rule. */
  tolerance: number;
}

/**
 * For each dim of a candidate, the interval about its value, the other dims as they are, within which every limit
 * holds. From the value outward in coarse steps to the first failure or the end of the range, then by bisection between
 * the last value that worked and the first that did not; all dims and both ways at once, a batch to each round.
 *
 * What it promises: every coarse step inside the interval works, its ends work, and a value that fails lies within
 * `tolerance` (on a stepped dim: one step) beyond an end that has a failure. What it can miss: a stretch of failing
 * values narrower than the coarse step, and any that shows only when two dims move together.
 *
 * @param verdicts takes dim values in mm, degrees or option numbers
 * @param walks one to each dim
 * @returns one to each dim
 */
export async function safeRanges(
  verdicts: Verdicts,
  variables: readonly Variable[],
  values: Float64Array,
  walks: readonly Walk[],
): Promise<SafeRange[]> {
  return (await safeRangesOfEach(verdicts, variables, [values], walks))[0];
}

/** The same for several candidates, walked side by side. @returns [candidate][dim] */
export async function safeRangesOfEach(
  verdicts: Verdicts,
  variables: readonly Variable[],
  candidates: readonly Float64Array[],
  walks: readonly Walk[],
): Promise<SafeRange[][]> {
  const asDrawn = await answerAll(verdicts, [...candidates]);
  const reasons = candidates.map((values, c) =>
    variables.map((variable, dim) =>
      asDrawn[c] === null ? whyNone(variable, values[dim]) : `the figure itself fails: ${asDrawn[c]}`,
    ),
  );
  const probes = candidates.map((values, c) =>
    variables.map((variable, dim) =>
      variable.kind === 'real' && reasons[c][dim] === null
        ? [-1, 1].map((way) => new Probe(variable, dim, values, way, walks[dim]))
        : [],
    ),
  );
  const all = probes.flat(2);
  for (;;) {
    const asking = all.filter((probe) => probe.next() !== null);
    if (asking.length === 0) break;
    const answers = await answerAll(
      verdicts,
      asking.map((probe) => probe.row()),
    );
    asking.forEach((probe, k) => {
      probe.hear(answers[k]);
    });
  }
  return probes.map((byDim, c) =>
    byDim.map((pair, dim) => {
      if (reasons[c][dim] !== null) return { range: null, reason: reasons[c][dim] };
      const [low, high] = pair.map((probe) => probe.end());
      return { range: { low, high }, reason: null };
    }),
  );
}

function whyNone(variable: Variable, value: number): string | null {
  if (variable.kind === 'choice') return 'a choice has no range';
  if (value < variable.min || value > variable.max) return 'its value lies outside its range';
  return null;
}

/** One walk outward from a value: tells which distance to try next and hears what came of it. */
class Probe {
  readonly #dim: number;
  readonly #variable: Variable & { kind: 'real' };
  readonly #values: Float64Array;
  readonly #way: number;
  /** Distances from the value: the bound, the coarse step, the tolerance. */
  readonly #bound: number;
  readonly #coarse: number;
  readonly #tolerance: number;
  #works = 0;
  #fails = Number.POSITIVE_INFINITY;
  #failure: string | null = null;

  constructor(
    variable: Variable & { kind: 'real' },
    dim: number,
    values: Float64Array,
    way: number,
    walk: Walk,
  ) {
    if (!(walk.coarse > 0 && walk.tolerance > 0)) {
      throw new RangeError(
        `a walk needs a step and a tolerance above 0, not ${walk.coarse} and ${walk.tolerance}`,
      );
    }
    const from = values[dim];
    this.#dim = dim;
    this.#variable = variable;
    this.#values = values;
    this.#way = way;
    const bound = way > 0 ? variable.max - from : from - variable.min;
    this.#bound = variable.step ? wholeSteps(bound, variable.step, Math.floor) : bound;
    this.#coarse = variable.step
      ? Math.max(variable.step, wholeSteps(walk.coarse, variable.step))
      : walk.coarse;
    this.#tolerance = variable.step ?? walk.tolerance;
  }

  /** The value to try next, or null when the end is known. */
  next(): number | null {
    const distance = this.#nextDistance();
    return distance === null ? null : this.#at(distance);
  }

  /** The candidate with that value. */
  row(): Float64Array {
    const row = this.#values.slice();
    row[this.#dim] = this.next() as number;
    return row;
  }

  hear(failure: string | null): void {
    const distance = this.#nextDistance();
    if (distance === null) return;
    if (failure === null) this.#works = distance;
    else {
      this.#fails = distance;
      this.#failure = failure;
    }
  }

  end(): SafeEnd {
    return { value: this.#at(this.#works), failure: this.#failure };
  }

  #nextDistance(): number | null {
    // A millionth of a tolerance keeps round-off from asking for a step that is no step.
    const close = this.#tolerance * (1 + 1e-6);
    if (this.#fails === Number.POSITIVE_INFINITY) {
      if (this.#works >= this.#bound) return null;
      return Math.min(this.#bound, this.#works + this.#coarse);
    }
    if (this.#fails - this.#works <= close) return null;
    const { step } = this.#variable;
    const middle = (this.#works + this.#fails) / 2;
    return step ? wholeSteps(middle, step, Math.floor) : middle;
  }

  #at(distance: number): number {
    const value = this.#values[this.#dim] + this.#way * distance;
    return Math.min(this.#variable.max, Math.max(this.#variable.min, value));
  }
}

/** A distance as a whole number of steps; a millionth of a step of round-off must not cost one. */
function wholeSteps(distance: number, step: number, whole: (n: number) => number = Math.round): number {
  return whole(distance / step + (whole === Math.floor ? 1e-6 : 0)) * step;
}
