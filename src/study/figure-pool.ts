import { serialize } from 'node:v8';
import { workerFile } from '../disk/root.js';
import type { FigureSource } from '../figure/text/source.js';
import { ScoringFailure, WorkerPool } from './pool.js';
import type { Layout, Row } from './row.js';

/** What came of one dummy: of a candidate scored as drawn, or cut by hand. */
export interface Trial {
  row: Row;
  /** What fails first, in words; null when it works. */
  failure: string | null;
}

/** What a study needs of workers that know a figure: threads, or what others lend over a queue; tests have their own. */
export type FigurePool = Pick<WorkerPool<Trial>, 'run'>;

/** A figure as a worker is told of it with each parcel. */
export interface FigureForWorker {
  /** No two figures of a process have the same. */
  readonly number: number;
  /** Its source, as Node serializes it: lent, not copied. */
  readonly source: SharedArrayBuffer;
}

let figures = 0;

function forWorker(source: FigureSource): FigureForWorker {
  const bytes = serialize(source);
  const shared = new SharedArrayBuffer(bytes.length);
  new Uint8Array(shared).set(bytes);
  return { number: figures++, source: shared };
}

/** Worker threads that try dummies of a figure. They start at once, and serve all that a command asks for. */
export const figurePool = (source: FigureSource, workers: number): WorkerPool<Trial> =>
  new WorkerPool<Trial>({ file: workerFile('score'), data: forWorker(source), workers, lasting: true });

/**
 * What comes of a batch, in its order, also where it could not be scored; ends early when stopped.
 * @param inShort whether what fails by its motion is not looked at further (see `Scorer.scoreInShort`)
 */
export async function* trialsIn(
  pool: FigurePool,
  layout: Layout,
  batch: readonly Float64Array[],
  stop: AbortSignal,
  inShort = false,
): AsyncGenerator<Trial> {
  for await (const answer of pool.run(batch, stop, inShort))
    yield answer instanceof ScoringFailure
      ? { row: layout.failed(answer.reason), failure: `could not be scored: ${answer.reason}` }
      : answer;
}

/** The same without words of what fails. */
export async function* rowsIn(...asked: Parameters<typeof trialsIn>): AsyncGenerator<Row> {
  for await (const { row } of trialsIn(...asked)) yield row;
}
