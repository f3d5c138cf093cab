/**
 * The gradient of a network, written out in `Net.slopes`, against the automatic gradient of TensorFlow.js itself (the
 * reference: `grad` of its core, with the gradients of all kernels registered).
 */
import '@tensorflow/tfjs-core/dist/register_all_gradients.js';
import type * as Tensors from '@tensorflow/tfjs-core';
import { expect, it } from 'vitest';
import { stream } from '../../src/search/random.js';
import { Net } from '../../src/search/surrogate-net.js';
import { tensorBackend } from '../../src/search/tensor-backend.js';

const [INPUTS, OUTPUTS, AMOUNTS] = [5, 4, 3];

it('every slope of every output is that of the automatic gradient, of odds too', async () => {
  const { tf } = await tensorBackend();
  const net = new Net(tf, INPUTS, OUTPUTS, AMOUNTS, stream(1, 'net'));
  const [w1, b1, w2, b2, w3, b3] = net.save().values;
  const random = stream(2, 'points');
  const said = (x: Tensors.Tensor, output: number) => {
    const layer = (from: Tensors.Tensor, w: number[], b: number[]) =>
      tf.add(tf.matMul(from, tf.tensor2d(w, [w.length / b.length, b.length])), tf.tensor1d(b));
    const raw = layer(tf.relu(layer(tf.relu(layer(x, w1, b1)), w2, b2)), w3, b3);
    const one = tf.slice(raw, [0, output], [1, 1]);
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
