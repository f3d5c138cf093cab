import { workerData } from 'node:worker_threads';
import { compileFigure } from '../src/figure/figure.js';
import type { Template } from '../src/figure/template.js';
import type { FigureSource } from '../src/figure/text/source.js';
import { rowWords } from '../src/report/words/row-words.js';
import { whatFails } from '../src/report/words/what-fails.js';
import { Scorer } from '../src/score/scorer.js';
import type { Trial } from '../src/study/figure-pool.js';
import { Layout } from '../src/study/row.js';

/** What one worker thread runs: it understands the figure once, then tries batches of dummies. */
const figure = compileFigure(workerData as FigureSource);
const dims = figure.free.length;
let scorer = new Scorer(figure);
const layout = new Layout(scorer.score(figure.start));
/** Dummies of one candidate come one after another. */
let drawn: { vector: Float64Array; template: Template } | null = null;

/**
 * @param vectors candidates to be scored as drawn (their dims), or dummies of them cut by hand (dims, then errors)
 * @param inShort whether those as drawn are looked at no further where they fail by their motion
 */
export default function score({ vectors, inShort }: { vectors: Float64Array[]; inShort: boolean }): Trial[] {
  try {
    return vectors.map((asked) => {
      const vector = asked.slice(0, dims);
      const card =
        asked.length === dims
          ? inShort
            ? scorer.scoreInShort(vector)
            : scorer.score(vector)
          : scorer.scoreCut(templateOf(vector), asked.slice(dims), vector);
      return { row: layout.rowOf(card, rowWords(card)), failure: whatFails(card) };
    });
  } catch (error) {
    // Its buffers may be half filled; the next batch must not find them so.
    scorer = new Scorer(figure);
    throw error;
  }
}

function templateOf(vector: Float64Array): Template {
  if (drawn === null || drawn.vector.some((value, dim) => value !== vector[dim]))
    drawn = { vector, template: figure.template(vector) };
  return drawn.template;
}
