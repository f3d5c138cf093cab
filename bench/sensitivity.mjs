#!/usr/bin/env node
/**
 * Do the intervals of the Sobol indices shrink as 1/√N? On the ferryman, for more and more base points: the mean width of
 * the 95 % intervals of all total indices, over the scores that vary. Halved for four times as many, the slope of
 * log width against log N is −0.5. Fails unless it lies from −0.7 to −0.3.
 */
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { compileFigure } from '../dist/src/figure/figure.js';
import { readFigure } from '../dist/src/figure/read.js';
import { Scorer } from '../dist/src/score/scorer.js';
import { globalRuns } from '../dist/src/search/figure-sensitivity.js';
import { FigureTrials } from '../dist/src/search/figure-trials.js';
import { variablesOf } from '../dist/src/search/figure-variables.js';
import { Layout } from '../dist/src/search/study-row.js';

const source = readFigure(join(import.meta.dirname, '../examples/ferryman.yaml'));
const figure = compileFigure(source);
const variables = variablesOf(figure);
const layout = new Layout(new Scorer(figure).score(figure.start));
const never = new AbortController().signal;
const trials = new FigureTrials({ source, dims: variables.length }, layout, availableParallelism(), never);

const points = [];
console.log('base points     runs  seconds  mean width of 95 % intervals of total indices');
try {
  for (const base of [128, 256, 512, 1024]) {
    const started = performance.now();
    const runs = base * (variables.length + 2);
    const { indices } = await globalRuns(trials.scores, variables, 1, runs, 0);
    const widths = indices.flat().flatMap(({ index }) => (index ? [index.totalHigh - index.totalLow] : []));
    const width = widths.reduce((sum, each) => sum + each, 0) / widths.length;
    const seconds = (performance.now() - started) / 1000;
    points.push([Math.log(base), Math.log(width)]);
    console.log(
      `${String(base).padStart(11)} ${String(runs).padStart(8)} ${seconds.toFixed(1).padStart(8)}  ${width.toFixed(4)}`,
    );
  }
} finally {
  await trials.close();
}
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
