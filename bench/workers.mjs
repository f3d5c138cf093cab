/** Plain samples of the heron scored by one worker and by two, in wall time, without their starting up. */
import { fileURLToPath } from 'node:url';
import { readFigure } from '../dist/src/figure/read.js';
import { WorkerPool } from '../dist/src/search/pool.js';
import { workerFile } from '../dist/src/search/root.js';
import { example, samples } from './examples.mjs';

const COUNT = 4000;
const figure = example('heron');
const data = readFigure(fileURLToPath(new URL('../examples/heron.yaml', import.meta.url)));
const vectors = samples(figure, COUNT);
const stop = new AbortController().signal;
let one = 0;
for (const workers of [1, 2]) {
  const pool = new WorkerPool({ file: workerFile('score'), data, workers });
  for await (const _ of pool.run(vectors.slice(0, 800), stop));
  const from = performance.now();
  for await (const _ of pool.run(vectors, stop));
  const seconds = (performance.now() - from) / 1000;
  await pool.close();
  if (workers === 1) one = seconds;
  console.log(
    `  ${workers} worker${workers > 1 ? 's' : ''}: ${Math.round(COUNT / seconds)} candidates a second${workers > 1 ? `, ${(one / seconds).toFixed(2)} × one` : ''}`,
  );
}
