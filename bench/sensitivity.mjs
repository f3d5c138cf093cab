#!/usr/bin/env node
/**
 * Do the intervals of the Sobol indices shrink as 1/√N? On the ferryman, for more and more base points: the mean width of
 * the 95 % intervals of the total indices that all of them can measure. Halved for four times as many, the slope of
 * log width against log N is −0.5. Fails unless it lies from −0.7 to −0.3.
 */
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { compileFigure } from '../dist/src/figure/figure.js';
import { readFigure } from '../dist/src/figure/read.js';
import { globalRuns } from '../dist/src/insight/sensitivity/global-runs.js';
import { FigureTrials } from '../dist/src/insight/trials.js';
import { Scorer } from '../dist/src/score/scorer.js';
import { figurePool } from '../dist/src/study/figure-pool.js';
import { variablesOf } from '../dist/src/study/figure-variables.js';
import { Layout } from '../dist/src/study/row.js';

const source = readFigure(join(import.meta.dirname, '../examples/ferryman.yaml'));
const figure = compileFigure(source);
const variables = variablesOf(figure);
const layout = new Layout(new Scorer(figure).score(figure.start));
const never = new AbortController().signal;
const pool = figurePool(source, availableParallelism());
const trials = new FigureTrials(pool, layout, never);

const measured = [];
try {
  for (const base of [128, 256, 512, 1024]) {
    const started = performance.now();
    const runs = base * (variables.length + 2);
    const { indices } = await globalRuns(trials.scores, variables, 1, runs, 0);
    const seconds = (performance.now() - started) / 1000;
    console.log(`${base} base points: ${runs} runs, ${seconds.toFixed(1)} s`);
    measured.push({ base, indices: indices.flat().map(({ index }) => index) });
  }
} finally {
  await pool.close();
}
// What varies too rarely to be measured in few runs would come in late, with wide intervals: like is compared with like.
const always = measured[0].indices
  .map((_, k) => k)
  .filter((k) => measured.every(({ indices }) => indices[k] !== null));
console.log(
  `mean width of the 95 % intervals of the ${always.length} total indices that are measured in each:`,
);
const points = measured.map(({ base, indices }) => {
  const width =
    always.reduce((sum, k) => sum + indices[k].totalHigh - indices[k].totalLow, 0) / always.length;
  console.log(`${String(base).padStart(6)}  ${width.toFixed(4)}`);
  return [Math.log(base), Math.log(width)];
});
const slope = slopeOf(points);
console.log(`slope of log width against log N: ${slope.toFixed(2)} (−0.5 for 1/√N)`);
if (!(slope > -0.7 && slope < -0.3)) process.exitCode = 1;

/** Least squares. */
function slopeOf(pairs) {
  const mean = (k) => pairs.reduce((sum, pair) => sum + pair[k], 0) / pairs.length;
  const [x, y] = [mean(0), mean(1)];
  const over = pairs.reduce((sum, pair) => sum + (pair[0] - x) * (pair[1] - y), 0);
  return over / pairs.reduce((sum, pair) => sum + (pair[0] - x) ** 2, 0);
}
