import type { Variable } from '../search/evaluator.js';
import { type HeldOutError, heldOutError } from '../search/held-out.js';
import { mix, type Random, stream } from '../search/random.js';
import { encoded, inputsOf, type Scale, scaled, scaleOf } from '../search/surrogate-data.js';
import { Net } from '../search/surrogate-net.js';
import type { TensorBackend } from '../search/tensor-backend.js';
import type { Space } from '../search/variables.js';
import { varies } from './sensitivity/varies.js';

/** Networks; each leaves another one of as many parts of the dummies out, and is checked on it. */
const NETS = 4;
/** Steps of training, and rows of a lesson. */
const STEPS = 600;
const ROWS = 128;
/** The first steps are so many times the usual length; they fall to a fiftieth, as half a cosine wave. */
const PACE = 2.5;
const LAST_PACE = 0.02;
/** Rows predicted at once. */
const AT_ONCE = 16384;

/** A dummy that was scored, as food for a surrogate. */
export interface ScoredPoint {
  /** In the unit cube of the dims. */
  readonly unit: Float64Array;
  /** All scores; NaN where not computed. */
  readonly scores: Float64Array;
  /** Whether it is one of many that are spread evenly through the ranges: on these it is checked. */
  readonly plain: boolean;
  /** Dummies that differ in one dim alone have the same number, and are learnt or kept back together. */
  readonly group: number;
}

/** The slopes of all scores at a point. */
export interface ScoreSlopes {
  /** [dim][score], in the score's unit for one unit more of the dim; NaN for a choice, and for a score that is not learnt. */
  readonly slopes: Float64Array[];
  /** [dim][score]: whether all networks agree on the sign. */
  readonly sure: boolean[][];
}

/** Where a network's output stands for a score. */
interface Place {
  /** The output that holds the score; null where it never varied. */
  readonly output: number | null;
  readonly scale: Scale;
  /** The output that holds the odds of its being computed; null where it always or never was. */
  readonly known: number | null;
}

/**
 * A stand-in for scoring that has learnt the scores themselves: for the indices of a figure that takes too long to score, and
 * to check slopes against. What it says is never shown as a score.
 *
 * Each network learns from three quarters of the dummies, so that every dummy is unknown to one of them: the error there is
 * the held-out error. All of them together do somewhat better than that.
 *
 * The same points, seed and backend give the same bytes.
 */
export class ScoreSurrogate {
  /** How many dummies it has learnt from. */
  readonly learnt: number;
  /** For each score how well plain dummies are expected by the network that had not learnt from them. */
  readonly heldOut: readonly (HeldOutError | null)[];
  readonly #space: Space;
  readonly #nets: readonly Net[];
  readonly #places: readonly Place[];
  readonly #outputs: number;

  private constructor(
    space: Space,
    nets: readonly Net[],
    { places, outputs }: Outputs,
    points: readonly ScoredPoint[],
    seed: number,
  ) {
    this.#space = space;
    this.#nets = nets;
    this.#places = places;
    this.#outputs = outputs;
    this.learnt = points.length;
    this.heldOut = this.#check(points, stream(seed, 'held-out error'));
  }

  /**
   * Learns from scored dummies, and lets other work in between its steps.
   * @param odds which scores are a yes or no, as 1 and 0
   * @throws the reason of `stop`
   */
  static async learn(
    { tf }: TensorBackend,
    space: Space,
    points: readonly ScoredPoint[],
    odds: readonly number[],
    seed: number,
    stop: AbortSignal,
  ): Promise<ScoreSurrogate> {
    const what = outputsOf(points, odds);
    const inputs = encoded(
      space,
      points.map(({ unit }) => unit),
    );
    const nets: Net[] = [];
    for (let part = 0; part < NETS && what.outputs > 0; part++) {
      const random = stream(seed, `scores, net ${part}`);
      const net = new Net(tf, inputsOf(space), what.outputs, what.amounts, random);
      const mine = [true, false].map((plain) =>
        [...points.keys()].filter((i) => points[i].plain === plain && partOf(points[i]) !== part),
      );
      const lists = mine.filter((list) => list.length > 0);
      for (let step = 0; lists.length > 0 && step < STEPS; step++) {
        stop.throwIfAborted();
        // Half of them plain: found ones are many, and all alike.
        const rows = Array.from({ length: ROWS }, (_, b) => {
          const list = lists[b % lists.length];
          return list[random.below(list.length)];
        });
        const fall = (1 + Math.cos((Math.PI * step) / STEPS)) / 2;
        net.learn(lesson(rows, inputs, what), PACE * Math.max(LAST_PACE, fall));
        await new Promise((resume) => setImmediate(resume));
      }
      nets.push(net);
    }
    return new ScoreSurrogate(space, nets, what, points, seed);
  }

  /** All scores that are expected at points of the unit cube; NaN where none is, and odds for a yes or no. */
  expect(units: readonly Float64Array[]): Float64Array[] {
    const expected: Float64Array[] = [];
    for (let from = 0; from < units.length; from += AT_ONCE) {
      const part = units.slice(from, from + AT_ONCE);
      const said = this.#nets.map((net) => net.predict(encoded(this.#space, part), part.length));
      part.forEach((_, i) => {
        expected.push(this.#scores((output) => meanOf(said, i * this.#outputs + output)));
      });
    }
    return expected;
  }

  /** How the scores answer to each dim at a point: the gradient of the networks, and their mean. */
  slopes(unit: Float64Array): ScoreSlopes {
    const said = this.#nets.map((net) => net.slopes(encoded(this.#space, [unit])));
    const slopes: Float64Array[] = [];
    const sure: boolean[][] = [];
    let input = 0;
    this.#space.variables.forEach((variable, dim) => {
      const at = input * this.#outputs;
      input += variable.kind === 'choice' ? variable.options : 1;
      const perUnit = inputPerUnit(variable, this.#space.cells[dim]);
      slopes.push(
        Float64Array.from(this.#places, ({ output, scale }) =>
          output === null ? Number.NaN : scale.deviation * perUnit * meanOf(said, at + output),
        ),
      );
      sure.push(
        this.#places.map(({ output }) => {
          if (output === null || variable.kind === 'choice') return false;
          return said.every((net) => net[at + output] > 0) || said.every((net) => net[at + output] < 0);
        }),
      );
    });
    return { slopes, sure };
  }

  /** Scores from the outputs of networks. */
  #scores(of: (output: number) => number): Float64Array {
    return Float64Array.from(this.#places, ({ output, scale, known }) => {
      if (known !== null && of(known) < 0.5) return Number.NaN;
      return scale.mean + (output === null ? 0 : scale.deviation * of(output));
    });
  }

  #check(points: readonly ScoredPoint[], random: Random): (HeldOutError | null)[] {
    const plain = points.filter((point) => point.plain);
    const said = plain.map(() => new Float64Array(this.#places.length).fill(Number.NaN));
    this.#nets.forEach((net, part) => {
      const mine = [...plain.keys()].filter((i) => partOf(plain[i]) === part);
      const rows = encoded(
        this.#space,
        mine.map((i) => plain[i].unit),
      );
      const outputs = mine.length > 0 ? net.predict(rows, mine.length) : [];
      mine.forEach((i, row) => {
        // Whether it is expected to be known is another matter.
        said[i] = Float64Array.from(this.#places, ({ output, scale }) =>
          output === null ? Number.NaN : scale.mean + scale.deviation * outputs[row * this.#outputs + output],
        );
      });
    });
    return this.#places.map((_, score) =>
      heldOutError(
        plain.map(({ scores }) => scores[score]),
        said.map((each) => each[score]),
        random,
      ),
    );
  }
}

/** How far the input of a dim moves for one unit more of it. */
function inputPerUnit(variable: Variable, cells: number): number {
  if (variable.kind === 'choice') return Number.NaN;
  return 2 / (variable.step ? cells * variable.step : variable.max - variable.min);
}

/** Not by turns: neighbours in a Sobol sequence take turns too, and a part left out would be a corner of the cube. */
const partOf = ({ group }: ScoredPoint): number => mix(group) % NETS;

const meanOf = (lists: readonly Float32Array[], at: number): number =>
  lists.reduce((sum, list) => sum + list[at], 0) / lists.length;

/** What the outputs stand for, amounts first, and the targets of all points, flat; NaN where not known. */
interface Outputs {
  readonly places: readonly Place[];
  readonly amounts: number;
  readonly outputs: number;
  readonly targets: Float32Array;
}

const AS_IT_IS: Scale = { mean: 0, deviation: 1 };

function outputsOf(points: readonly ScoredPoint[], odds: readonly number[]): Outputs {
  const count = points[0]?.scores.length ?? 0;
  const columns = Array.from({ length: count }, (_, score) =>
    Float64Array.from(points, ({ scores }) => scores[score]),
  );
  const varying = columns.map((column) => varies(column));
  const amounts = columns.flatMap((column, score) =>
    varying[score] && !odds.includes(score)
      ? [{ column, score, scale: scaleOf(points.length, (i) => column[i]) }]
      : [],
  );
  const yesNo = odds.filter((score) => varying[score]);
  // Scores that are missing together need one output between them.
  const patterns = columns.map((column) =>
    Array.from(column, (value) => (Number.isNaN(value) ? 0 : 1)).join(''),
  );
  const mixed = [...new Set(patterns)].filter((pattern) => pattern.includes('0') && pattern.includes('1'));
  const firstKnown = amounts.length + yesNo.length;
  const outputs = firstKnown + mixed.length;

  const targets = new Float32Array(points.length * outputs);
  points.forEach(({ scores }, i) => {
    const at = i * outputs;
    amounts.forEach(({ score, scale }, k) => {
      targets[at + k] = scaled(scores[score], scale);
    });
    yesNo.forEach((score, k) => {
      targets[at + amounts.length + k] = scores[score];
    });
    mixed.forEach((pattern, k) => {
      targets[at + firstKnown + k] = Number(pattern[i]);
    });
  });
  const places = columns.map((column, score): Place => {
    const amount = amounts.findIndex((each) => each.score === score);
    const yes = yesNo.indexOf(score);
    const known = mixed.indexOf(patterns[score]);
    return {
      output: amount >= 0 ? amount : yes >= 0 ? amounts.length + yes : null,
      scale: amount >= 0 ? amounts[amount].scale : yes >= 0 ? AS_IT_IS : constant(column),
      known: known >= 0 ? firstKnown + known : null,
    };
  });
  return { places, amounts: amounts.length, outputs, targets };
}

/** A score that never varied stays as it is; NaN if it was never computed. */
function constant(column: Float64Array): Scale {
  return { mean: column.find((value) => !Number.isNaN(value)) ?? Number.NaN, deviation: 0 };
}

function lesson(rows: readonly number[], inputs: Float32Array, { outputs, targets }: Outputs) {
  const width = inputs.length / (targets.length / outputs);
  const made = {
    rows: rows.length,
    inputs: new Float32Array(rows.length * width),
    targets: new Float32Array(rows.length * outputs),
    weights: new Float32Array(rows.length * outputs),
  };
  rows.forEach((row, b) => {
    made.inputs.set(inputs.subarray(row * width, (row + 1) * width), b * width);
    for (let k = 0; k < outputs; k++) {
      const target = targets[row * outputs + k];
      if (Number.isNaN(target)) continue;
      made.targets[b * outputs + k] = target;
      made.weights[b * outputs + k] = 1 / rows.length;
    }
  });
  return made;
}
