/**
 * The gradients of a network, written out in `Net.slopes` and `Net.learn`, against the automatic gradient of TensorFlow.js
 * itself (the reference: `grad` of its core, with the gradients of all kernels registered).
 */
import '@tensorflow/tfjs-core/dist/register_all_gradients.js';
import type * as Tensors from '@tensorflow/tfjs-core';
import { expect, it } from 'vitest';
import { stream } from '../../src/search/random.js';
import { Net } from '../../src/search/surrogate-net.js';
import { tensorBackend } from '../../src/search/tensor-backend.js';

const [INPUTS, OUTPUTS, AMOUNTS] = [5, 4, 3];

/** What the two layers of rectifiers and the last one say, before odds are made of it. */
function rawOf(
  tf: typeof Tensors,
  x: Tensors.Tensor,
  [w1, b1, w2, b2, w3, b3]: readonly Tensors.Tensor[],
): Tensors.Tensor {
  const layer = (from: Tensors.Tensor, w: Tensors.Tensor, b: Tensors.Tensor) => tf.add(tf.matMul(from, w), b);
  return layer(tf.relu(layer(tf.relu(layer(x, w1, b1)), w2, b2)), w3, b3);
}

/** The numbers of a net as tensors: matrices of weights and rows of biases, by turns. */
function layersOf(tf: typeof Tensors, net: Net): Tensors.Tensor[] {
  const { values } = net.save();
  return values.map((list, k) =>
    k % 2 === 1
      ? tf.tensor1d(list)
      : tf.tensor2d(list, [list.length / values[k + 1].length, values[k + 1].length]),
  );
}

it('every slope of every output is that of the automatic gradient, of odds too', async () => {
  const { tf } = await tensorBackend();
  const net = new Net(tf, INPUTS, OUTPUTS, AMOUNTS, stream(1, 'net'));
  const layers = layersOf(tf, net);
  const random = stream(2, 'points');
  const said = (x: Tensors.Tensor, output: number) => {
    const one = tf.slice(rawOf(tf, x, layers), [0, output], [1, 1]);
    return tf.reshape(output < AMOUNTS ? one : tf.sigmoid(one), []);
  };
  for (let point = 0; point < 5; point++) {
    const input = Float32Array.from({ length: INPUTS }, () => 2 * random.next() - 1);
    const slopes = net.slopes(input);
    expect(slopes).toHaveLength(INPUTS * OUTPUTS);
    for (let output = 0; output < OUTPUTS; output++) {
      const wanted = tf.tidy(() =>
        tf
          .grad((x) => said(x, output))(tf.tensor2d(input, [1, INPUTS]))
          .dataSync(),
      );
      wanted.forEach((slope, i) => {
        expect(slopes[i * OUTPUTS + output]).toBeCloseTo(slope, 5);
      });
      expect(Math.max(...wanted.map(Math.abs))).toBeGreaterThan(0.01);
    }
  }
});

it('a lesson goes down the automatic gradient of half the squared error of amounts, and of the cross-entropy of odds', async () => {
  const { tf } = await tensorBackend();
  const net = new Net(tf, INPUTS, OUTPUTS, AMOUNTS, stream(3, 'net'));
  const random = stream(4, 'lesson');
  const rows = 12;
  const inputs = Float32Array.from({ length: rows * INPUTS }, () => 2 * random.next() - 1);
  const targets = Float32Array.from({ length: rows * OUTPUTS }, (_, k) =>
    k % OUTPUTS < AMOUNTS ? random.normal() : random.below(2),
  );
  // Some targets are not known and weigh nothing.
  const weights = Float32Array.from({ length: rows * OUTPUTS }, () => random.below(4) / rows);
  const before = layersOf(tf, net);
  const wanted = tf.tidy(() => {
    const [truth, weight] = [targets, weights].map((flat) => tf.tensor2d(flat, [rows, OUTPUTS]));
    const columns = (from: Tensors.Tensor, odds: boolean) =>
      tf.slice(from, [0, odds ? AMOUNTS : 0], [rows, odds ? OUTPUTS - AMOUNTS : AMOUNTS]);
    const loss = (...layers: Tensors.Tensor[]) => {
      const raw = rawOf(tf, tf.tensor2d(inputs, [rows, INPUTS]), layers);
      const off = tf.sub(columns(raw, false), columns(truth, false));
      const squares = tf.mul(0.5, tf.mul(columns(weight, false), tf.mul(off, off)));
      // −t ln q − (1 − t) ln(1 − q) = ln(1 + eʳ) − t r, with q the sigmoid of r.
      const r = columns(raw, true);
      const entropy = tf.mul(columns(weight, true), tf.sub(tf.softplus(r), tf.mul(columns(truth, true), r)));
      return tf.add(tf.sum(squares), tf.sum(entropy)) as Tensors.Scalar;
    };
    return tf
      .grads(loss)(before)
      .map((gradient) => Array.from(gradient.dataSync()));
  });
  const values = net.save().values;
  net.learn({ rows, inputs, targets, weights });
  // Adam (Kingma and Ba, 2015): its first memory is (1 − 0.9) of the gradient, and its first step the rate whatever the
  // gradient's length: 0.004 against its sign.
  const after = net.save();
  wanted.forEach((gradient, layer) => {
    gradient.forEach((slope, i) => {
      expect(after.slopes[layer][i]).toBeCloseTo(0.1 * slope, 5);
      if (Math.abs(slope) > 1e-2)
        expect(after.values[layer][i] - values[layer][i]).toBeCloseTo(-0.004 * Math.sign(slope), 5);
    });
    expect(Math.max(...gradient.map(Math.abs))).toBeGreaterThan(0.01);
  });
});
