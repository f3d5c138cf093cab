import type { Candidate } from './archive.js';
import type { Expected, Foresight } from './expected.js';
import { type HeldOut, heldOut } from './held-out.js';
import { stream } from './random.js';
import { type Scale, SurrogateData } from './surrogate-data.js';
import { Net, type NetState } from './surrogate-net.js';
import type { TensorBackend } from './tensor-backend.js';
import type { Space } from './variables.js';

/** Networks in the ensemble: two tell that they disagree, and each more costs as much again. */
const NETS = 2;
/** Rows of a lesson. */
const ROWS = 256;
/** Rows predicted at once; in small batches TensorFlow.js is a hundred times slower. */
const AT_ONCE = 16384;

/** All that the surrogate has learnt, as plain JSON. */
export type SurrogateState = { scales: Scale[]; nets: NetState[] };

/**
 * A stand-in for scoring: a few small networks that learn from scored candidates what others will score. It only says which
 * candidates are worth scoring.
 *
 * The same rows, calls and backend give the same bytes: all chance comes from the seed.
 */
export class Surrogate implements Foresight {
  /** The best designs lie near a limit, where odds are even. */
  readonly soundFrom = 0.3;
  readonly data: SurrogateData;
  readonly #nets: Net[];
  readonly #seed: number;
  #scales: Scale[];

  /** @param failures how many kinds of failure a scored candidate tells of */
  constructor({ tf }: TensorBackend, space: Space, objectives: number, failures: number, seed: number) {
    this.data = new SurrogateData(space, objectives, failures);
    const { inputs, outputs, amounts } = this.data;
    this.#seed = seed;
    this.#nets = Array.from(
      { length: NETS },
      (_, k) => new Net(tf, inputs, outputs, amounts, stream(seed, `net ${k}`)),
    );
    this.#scales = this.data.scales(0);
  }

  add(candidate: Candidate): void {
    this.data.add(candidate);
  }

  /**
   * Trains on what was added before this call, and on nothing that is added while it runs. Lets other work in between steps,
   * so that workers are served meanwhile.
   * @param label names the training, and so its chance
   */
  async train(label: string, steps: number): Promise<void> {
    const rows = this.data.learnt.length;
    if (rows === 0) return;
    this.#scales = this.data.scales(rows);
    const randoms = this.#nets.map((_, k) => stream(this.#seed, `${label}, net ${k}`));
    for (let step = 0; step < steps; step++) {
      for (let k = 0; k < NETS; k++)
        this.#nets[k].learn(this.data.lesson(randoms[k], rows, ROWS, this.#scales));
      await new Promise((resume) => setImmediate(resume));
    }
  }

  expect(units: readonly Float64Array[]): Expected {
    const { outputs, amounts } = this.data;
    const objectives = amounts - 1;
    const expected: Expected = {
      objectives: units.map(() => new Float64Array(objectives)),
      spread: units.map(() => new Float64Array(objectives)),
      violation: new Float64Array(units.length),
      sound: new Float64Array(units.length),
    };
    for (let from = 0; from < units.length; from += AT_ONCE) {
      const part = units.slice(from, from + AT_ONCE);
      const said = this.#say(this.data.encode(part), part.length);
      for (let i = 0; i < part.length; i++) {
        const at = i * outputs;
        for (let j = 0; j < objectives; j++) {
          const { mean, deviation } = this.#scales[j];
          const [center, apart] = centerAndSpread(said.map((y) => y[at + j]));
          expected.objectives[from + i][j] = mean + deviation * center;
          expected.spread[from + i][j] = deviation * apart;
        }
        const { mean, deviation } = this.#scales[objectives];
        const [root] = centerAndSpread(said.map((y) => y[at + objectives]));
        expected.violation[from + i] = Math.max(0, mean + deviation * root) ** 2;
        [expected.sound[from + i]] = centerAndSpread(said.map((y) => y[at + amounts]));
      }
    }
    return expected;
  }

  /** How well it does on candidates that it never learnt from. */
  check(): HeldOut {
    const { keptBack, inputs, outputs, amounts } = this.data;
    const rows = new Float32Array(keptBack.length * inputs);
    keptBack.forEach(({ input }, i) => {
      rows.set(input, i * inputs);
    });
    const said = keptBack.length > 0 ? this.#say(rows, keptBack.length) : [];
    return heldOut(
      keptBack.map(({ target }) => target),
      (i, j) => {
        const [center] = centerAndSpread(said.map((y) => y[i * outputs + j]));
        return j < amounts ? this.#scales[j].mean + this.#scales[j].deviation * center : center;
      },
      amounts,
    );
  }

  save(): SurrogateState {
    return { scales: this.#scales, nets: this.#nets.map((net) => net.save()) };
  }

  restore({ scales, nets }: SurrogateState): void {
    this.#scales = scales;
    nets.forEach((state, k) => {
      this.#nets[k].restore(state);
    });
  }

  #say(inputs: Float32Array, rows: number): Float32Array[] {
    return this.#nets.map((net) => net.predict(inputs, rows));
  }
}

function centerAndSpread(values: number[]): [number, number] {
  const center = values.reduce((a, b) => a + b) / values.length;
  return [center, Math.sqrt(values.reduce((sum, v) => sum + (v - center) ** 2, 0) / values.length)];
}
