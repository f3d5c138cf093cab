import type * as Tensors from '@tensorflow/tfjs-core';
import type { Random } from './random.js';

/** Nodes in each of the two hidden layers. */
const HIDDEN = 32;
/** Step length and memories of Adam (D. P. Kingma, J. Ba, ICLR 2015); all but the first are the paper's. */
const RATE = 0.004;
const MEMORY = 0.9;
const SQUARE_MEMORY = 0.999;
const TINY = 1e-8;

/** A mini-batch as flat rows: inputs, targets, and how much each target weighs (0 where it is not known). */
export interface Lesson {
  rows: number;
  inputs: Float32Array;
  targets: Float32Array;
  weights: Float32Array;
}

/** All numbers of a net, as plain lists, for keeping. */
export interface NetState {
  steps: number;
  values: number[][];
  slopes: number[][];
  squares: number[][];
}

/**
 * A small network: two hidden layers of rectifiers; of its outputs the first `amounts` are plain numbers, the others odds.
 *
 * TensorFlow.js multiplies the matrices. The weights lie in arrays of our own between steps, so that a net is saved and goes
 * on to the last bit, no tensor outlives a call, and Adam costs no calls of the library on arrays this small. The gradient
 * is written out: it is a dozen lines, and TensorFlow.js has its own only with all of its layers loaded.
 */
export class Net {
  readonly #tf: typeof Tensors;
  readonly #shapes: number[][];
  readonly #amounts: number;
  #steps = 0;
  #values: Float32Array[];
  #slopes: Float32Array[];
  #squares: Float32Array[];

  constructor(tf: typeof Tensors, inputs: number, outputs: number, amounts: number, random: Random) {
    this.#tf = tf;
    this.#amounts = amounts;
    this.#shapes = [[inputs, HIDDEN], [HIDDEN], [HIDDEN, HIDDEN], [HIDDEN], [HIDDEN, outputs], [outputs]];
    const sizes = this.#shapes.map((shape) => shape.reduce((a, b) => a * b));
    this.#slopes = sizes.map((size) => new Float32Array(size));
    this.#squares = sizes.map((size) => new Float32Array(size));
    // Normal weights of variance 2 / inputs (K. He et al., ICCV 2015), biases 0.
    this.#values = this.#shapes.map((shape, layer) =>
      Float32Array.from({ length: sizes[layer] }, () =>
        shape.length === 1 ? 0 : random.normal() * Math.sqrt(2 / shape[0]),
      ),
    );
  }

  /** Outputs for flat rows of inputs, row by row; odds as odds, 0 to 1. */
  predict(inputs: Float32Array, rows: number): Float32Array {
    return this.#read((tf) => {
      const x = tf.tensor2d(inputs, [rows, this.#shapes[0][0]]);
      return this.#forward(x, this.#tensors()).y.dataSync() as Float32Array;
    });
  }

  /**
   * The gradient of each output at one point, input by input: the chain rule, in which a rectifier passes the slope of
   * what it lets through, and odds q, the sigmoid of a number, change by q (1 − q) of it.
   * @returns flat, [input][output]
   */
  slopes(input: Float32Array): Float32Array {
    const outputs = this.#shapes[5][0];
    const [slopes, y] = this.#read((tf) => {
      const layers = this.#tensors();
      const { h1, h2, y: said } = this.#forward(tf.tensor2d(input, [1, input.length]), layers);
      const d1 = tf.mul(layers[0], tf.step(h1));
      const d2 = tf.mul(tf.matMul(d1, layers[2]), tf.step(h2));
      return [tf.matMul(d2, layers[4]).dataSync(), said.dataSync()];
    });
    return Float32Array.from(slopes, (slope, k) => {
      const output = k % outputs;
      return output < this.#amounts ? slope : slope * y[output] * (1 - y[output]);
    });
  }

  /**
   * One step of gradient descent: squared error for amounts, cross-entropy for odds.
   * @param pace the step's length, as a multiple of the usual one
   */
  learn({ rows, inputs, targets, weights }: Lesson, pace = 1): void {
    const outputs = this.#shapes[5][0];
    const gradients = this.#read((tf) => {
      const x = tf.tensor2d(inputs, [rows, this.#shapes[0][0]]);
      const layers = this.#tensors();
      const { h1, h2, y } = this.#forward(x, layers);
      // For squared error and for cross-entropy of a sigmoid alike, the slope at the output is what is said less what is true.
      const miss = tf.sub(y, tf.tensor2d(targets, [rows, outputs]));
      const d3 = tf.mul(miss, tf.tensor2d(weights, [rows, outputs]));
      const d2 = tf.mul(tf.matMul(d3, tf.transpose(layers[4])), tf.step(h2));
      const d1 = tf.mul(tf.matMul(d2, tf.transpose(layers[2])), tf.step(h1));
      // Transposing first is twice as fast in WebAssembly as having matMul do it.
      const products = [
        tf.matMul(tf.transpose(x), d1),
        tf.matMul(tf.transpose(h1), d2),
        tf.matMul(tf.transpose(h2), d3),
      ];
      const sums = [d1, d2, d3].map((d) => tf.sum(d, 0));
      return [0, 1, 2].flatMap((k) => [products[k].dataSync(), sums[k].dataSync()]);
    });
    this.#descend(gradients, pace);
  }

  save(): NetState {
    const plain = (lists: Float32Array[]) => lists.map((list) => Array.from(list));
    return {
      steps: this.#steps,
      values: plain(this.#values),
      slopes: plain(this.#slopes),
      squares: plain(this.#squares),
    };
  }

  restore(state: NetState): void {
    this.#steps = state.steps;
    this.#values = state.values.map((list) => Float32Array.from(list));
    this.#slopes = state.slopes.map((list) => Float32Array.from(list));
    this.#squares = state.squares.map((list) => Float32Array.from(list));
  }

  /**
   * Reads numbers out of tensors, which are forgotten then. Nothing is returned from within `tidy` itself: it would look
   * through every single number for a tensor to keep, which takes longer than the sums.
   */
  #read<Numbers>(calculate: (tf: typeof Tensors) => Numbers): Numbers {
    const read: Numbers[] = [];
    this.#tf.tidy(() => {
      read.push(calculate(this.#tf));
    });
    return read[0];
  }

  #tensors(): Tensors.Tensor[] {
    return this.#values.map((list, k) => this.#tf.tensor(list, this.#shapes[k]));
  }

  #forward(x: Tensors.Tensor, [w1, b1, w2, b2, w3, b3]: Tensors.Tensor[]) {
    const tf = this.#tf;
    const h1 = tf.fused.matMul({ a: x, b: w1, bias: b1, activation: 'relu' });
    const h2 = tf.fused.matMul({ a: h1, b: w2, bias: b2, activation: 'relu' });
    const raw = tf.fused.matMul({ a: h2, b: w3, bias: b3 });
    const [rows, outputs] = raw.shape;
    if (outputs === this.#amounts) return { h1, h2, y: raw };
    const amounts = tf.slice(raw, [0, 0], [rows, this.#amounts]);
    const odds = tf.sigmoid(tf.slice(raw, [0, this.#amounts], [rows, outputs - this.#amounts]));
    return { h1, h2, y: tf.concat([amounts, odds], 1) };
  }

  #descend(gradients: ArrayLike<number>[], pace: number): void {
    this.#steps++;
    const rate = (pace * RATE * Math.sqrt(1 - SQUARE_MEMORY ** this.#steps)) / (1 - MEMORY ** this.#steps);
    for (let k = 0; k < gradients.length; k++) {
      const [gradient, value, slope, square] = [
        gradients[k],
        this.#values[k],
        this.#slopes[k],
        this.#squares[k],
      ];
      for (let i = 0; i < value.length; i++) {
        slope[i] = MEMORY * slope[i] + (1 - MEMORY) * gradient[i];
        square[i] = SQUARE_MEMORY * square[i] + (1 - SQUARE_MEMORY) * gradient[i] * gradient[i];
        value[i] -= (rate * slope[i]) / (Math.sqrt(square[i]) + TINY);
      }
    }
  }
}
