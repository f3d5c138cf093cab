import type * as Tensors from '@tensorflow/tfjs-core';
import { describe, expect, it } from 'vitest';
import { selfTest, tensorBackend } from '../../src/search/tensor-backend.js';

describe('the backend', () => {
  it('works, and says in words which it is', async () => {
    const { tf, name, why } = await tensorBackend();
    expect(selfTest(tf)).toBeUndefined();
    expect(tf.getBackend()).toBe({ node: 'tensorflow', wasm: 'wasm', cpu: 'cpu' }[name]);
    expect(why).toContain({ node: 'native', wasm: 'WebAssembly', cpu: 'plain JavaScript' }[name]);
    if (name !== 'node') expect(why).toContain('its native library is not installed');
    expect(why).not.toContain('\n');
  });

  it('is chosen once', async () => {
    expect(await tensorBackend()).toBe(await tensorBackend());
  });

  it('counts on one thread: a sum in another order would be another sum', async () => {
    const { tf, name } = await tensorBackend();
    if (name === 'wasm') expect(tf.env().getBool('WASM_HAS_MULTITHREAD_SUPPORT')).toBe(false);
  });

  it('is refused when it miscounts', async () => {
    const { tf } = await tensorBackend();
    const broken = { ...tf, step: (x: Tensors.Tensor) => tf.add(tf.step(x), 1e-3) } as typeof Tensors;
    expect(selfTest(broken)).toContain('the slope of a rectifier was 1.00');
  });

  it('leaves nothing in memory', async () => {
    const { tf } = await tensorBackend();
    const before = tf.memory().numTensors;
    selfTest(tf);
    expect(tf.memory().numTensors).toBe(before);
  });
});
