/**
 * Plain samples of the heron scored by one worker and by two, in wall time, once V8 has compiled what is hot: each worker
 * compiles for itself, on threads that take a quarter of the processor for the first few thousand. Beside it what the
 * machine can give at best: processes that score on their own and have nothing to do with one another.
 */
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { readFigure } from '../dist/src/figure/read.js';
import { Scorer } from '../dist/src/score/scorer.js';
import { figurePool } from '../dist/src/study/figure-pool.js';
import { example, samples } from './examples.mjs';

const COUNT = 12_000;
const WARM = 5000;
const figure = example('heron');
const vectors = samples(figure, COUNT);

if (process.argv[2] === 'alone') {
  console.log(await rateOf((some) => scoredAlone(new Scorer(figure), some)));
} else {
  const [one, two] = [await pooled(1), await pooled(2)];
  told('worker', 'workers', one, two);
  const [alone] = await processes(1);
  told(
    'process',
    'processes',
    alone,
    (await processes(2)).reduce((sum, rate) => sum + rate),
  );
}

/** Candidates a second, once warm. */
async function rateOf(score) {
  await score(vectors.slice(0, WARM));
  const from = performance.now();
  await score(vectors);
  return (1000 * COUNT) / (performance.now() - from);
}

async function scoredAlone(scorer, some) {
  for (const vector of some) scorer.score(vector);
}

async function pooled(workers) {
  const data = readFigure(fileURLToPath(new URL('../examples/heron.yaml', import.meta.url)));
  const pool = figurePool(data, workers);
  const never = new AbortController().signal;
  const rate = await rateOf(async (some) => {
    for await (const _ of pool.run(some, never));
  });
  await pool.close();
  return rate;
}

function processes(count) {
  const one = () =>
    new Promise((done) => {
      const child = spawn(process.execPath, [fileURLToPath(import.meta.url), 'alone']);
      child.stdout.on('data', (text) => done(Number(text)));
    });
  return Promise.all(Array.from({ length: count }, one));
}

function told(name, names, one, two) {
  console.log(`  1 ${name}: ${Math.round(one)} candidates a second`);
  console.log(`  2 ${names}: ${Math.round(two)}, ${(two / one).toFixed(2)} × one`);
}
