import type * as Tensors from '@tensorflow/tfjs-core';

/** TensorFlow.js with a backend that passed its self-test. */
export interface TensorBackend {
  tf: typeof Tensors;
  /** Results are the same bytes for the same name only. */
  name: 'node' | 'wasm' | 'cpu';
  /** Which backend and why, in one line for people. */
  why: string;
}

/**
 * Works out one layer forwards and back, with the kernels that the surrogate uses, and compares with numbers found by hand.
 * @returns undefined if they are right, else what was wrong
 */
export function selfTest(tf: typeof Tensors): string | undefined {
  return tf.tidy(() => {
    const x = tf.tensor2d([1, 2, 3, 4], [2, 2]);
    const w = tf.tensor2d([5, 6, 7, 8], [2, 2]);
    // x w = [19 22; 43 50]; plus [1 -60] is [20 -38; 44 -10], of which a rectifier leaves the first column.
    const h = tf.fused.matMul({ a: x, b: w, bias: tf.tensor1d([1, -60]), activation: 'relu' });
    const checks: [string, Tensors.Tensor, number[]][] = [
      ['a product', h, [20, 0, 44, 0]],
      ['the slope of a rectifier', tf.step(h), [1, 0, 1, 0]],
      ['the slope of a product', tf.matMul(tf.transpose(x), h), [152, 0, 216, 0]],
      ['a sum', tf.sum(h, 0), [64, 0]],
      ['a sigmoid', tf.sigmoid(tf.slice(h, [0, 1], [2, 1])), [0.5, 0.5]],
      ['what it put together', tf.concat([tf.sub(h, w), tf.mul(h, w)], 1), [15, -6, 100, 0, 37, -8, 308, 0]],
    ];
    for (const [name, tensor, wanted] of checks) {
      const got = Array.from(tensor.dataSync());
      const right =
        got.length === wanted.length && got.every((value, i) => Math.abs(value - wanted[i]) < 1e-5);
      if (!right) return `${name} was ${got.join(', ')}`;
    }
    return undefined;
  });
}

let ready: Promise<TensorBackend> | undefined;

/**
 * The fastest backend of TensorFlow.js that is installed and counts right: its native library, else WebAssembly on one
 * thread (several would add up in an order that changes from run to run), else plain JavaScript.
 */
export function tensorBackend(): Promise<TensorBackend> {
  ready ??= choose();
  return ready;
}

async function choose(): Promise<TensorBackend> {
  const refused: string[] = [];
  for (const name of ['node', 'wasm', 'cpu'] as const) {
    try {
      const tf = await load(name);
      const fault = selfTest(tf);
      if (fault === undefined) return { tf, name, why: `TensorFlow.js on ${LABEL[name]}${because(refused)}` };
      refused.push(`${LABEL[name]} failed its self-test: ${fault}`);
    } catch (error) {
      refused.push(
        `${LABEL[name]} ${isMissing(error) ? 'is not installed' : `could not be loaded (${firstLine(error)})`}`,
      );
    }
  }
  throw new Error(`No backend of TensorFlow.js works here: ${refused.join('; ')}.`);
}

const LABEL = { node: 'its native library', wasm: 'WebAssembly', cpu: 'plain JavaScript' };

const isMissing = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && error.code === 'ERR_MODULE_NOT_FOUND';

function because(refused: readonly string[]): string {
  return refused.length > 0 ? `, since ${refused.join(' and ')}` : '';
}

function firstLine(error: unknown): string {
  return (error instanceof Error ? error.message : String(error)).split('\n')[0];
}

async function load(name: TensorBackend['name']): Promise<typeof Tensors> {
  if (name === 'node') {
    // Optional: the name is not written out where the compiler would look for it.
    const native = '@tensorflow/tfjs-node';
    const tf = (await import(native)) as { default: typeof Tensors };
    await tf.default.ready();
    return tf.default;
  }
  const tf = await import('@tensorflow/tfjs-core');
  tf.enableProdMode();
  if (name === 'wasm') {
    await import('@tensorflow/tfjs-backend-wasm');
    tf.env().set('WASM_HAS_MULTITHREAD_SUPPORT', false);
  } else await import('@tensorflow/tfjs-backend-cpu');
  if (!(await tf.setBackend(name))) throw new Error('it did not start');
  await tf.ready();
  return tf;
}
