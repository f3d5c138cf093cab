import { deserialize } from 'node:v8';
import { workerData } from 'node:worker_threads';
import { compileFigure, type Figure } from '../src/figure/figure.js';
import type { Template } from '../src/figure/template.js';
import type { FigureSource } from '../src/figure/text/source.js';
import { rowWords } from '../src/report/words/row-words.js';
import { whatFails } from '../src/report/words/what-fails.js';
import { Scorer } from '../src/score/scorer.js';
import type { FigureForWorker, Trial } from '../src/study/figure-pool.js';
import { Layout } from '../src/study/row.js';

/** A figure that is understood once, then tried. */
class Understood {
  readonly number: number;
  readonly #figure: Figure;
  readonly #layout: Layout;
  #scorer: Scorer;
  /** Dummies of one candidate come one after another. */
  #drawn: { vector: Float64Array; template: Template } | null = null;

  constructor({ number, source }: FigureForWorker) {
    this.number = number;
    this.#figure = compileFigure(deserialize(Buffer.from(new Uint8Array(source))) as FigureSource);
    this.#scorer = new Scorer(this.#figure);
    this.#layout = new Layout(this.#scorer.score(this.#figure.start));
  }

  try(vectors: readonly Float64Array[], inShort: boolean): Trial[] {
    try {
      return vectors.map((asked) => this.#tryOne(asked, inShort));
    } catch (error) {
      // Its buffers may be half filled; the next batch must not find them so.
      this.#scorer = new Scorer(this.#figure);
      throw error;
    }
  }

  #tryOne(asked: Float64Array, inShort: boolean): Trial {
    const dims = this.#figure.free.length;
    const vector = asked.slice(0, dims);
    const card =
      asked.length === dims
        ? inShort
          ? this.#scorer.scoreInShort(vector)
          : this.#scorer.score(vector)
        : this.#scorer.scoreCut(this.#templateOf(vector), asked.slice(dims), vector);
    return { row: this.#layout.rowOf(card, rowWords(card)), failure: whatFails(card) };
  }

  #templateOf(vector: Float64Array): Template {
    if (this.#drawn === null || this.#drawn.vector.some((value, dim) => value !== vector[dim]))
      this.#drawn = { vector, template: this.#figure.template(vector) };
    return this.#drawn.template;
  }
}

/** The figure that was tried last: a thread serves one after another. */
let known = new Understood(workerData as FigureForWorker);

/**
 * What one worker thread runs.
 * @param vectors candidates to be scored as drawn (their dims), or dummies of them cut by hand (dims, then errors)
 * @param inShort whether those as drawn are looked at no further where they fail by their motion
 * @param data the figure
 */
export default function score({
  vectors,
  inShort,
  data,
}: {
  vectors: Float64Array[];
  inShort: boolean;
  data: FigureForWorker;
}): Trial[] {
  if (data.number !== known.number) known = new Understood(data);
  return known.try(vectors, inShort);
}
