import { workerData } from 'node:worker_threads';
import { compileFigure } from '../src/figure/figure.js';
import type { FigureSource } from '../src/figure/source.js';
import { Scorer } from '../src/score/scorer.js';
import { Layout, type Row } from '../src/search/study-row.js';

/** What one worker thread runs: it understands the figure once, then scores batches of candidates. */
const figure = compileFigure(workerData as FigureSource);
let scorer = new Scorer(figure);
const layout = new Layout(scorer.score(figure.start));

export default function score(batch: Float64Array[]): Row[] {
  try {
    return batch.map((vector) => layout.rowOf(scorer.score(vector)));
  } catch (error) {
    // Its buffers may be half filled; the next batch must not find them so.
    scorer = new Scorer(figure);
    throw error;
  }
}
