import { availableParallelism } from 'node:os';
import type { Figure } from '../figure/figure.js';
import type { FigureSource } from '../figure/text/source.js';
import { addressOf } from '../queue/address.js';
import { Scorer } from '../score/scorer.js';
import { type FigurePool, figurePool } from '../study/figure-pool.js';
import { Layout } from '../study/row.js';
import { tell } from './print.js';

/** What scores for a command. */
export interface ScoringPool {
  readonly pool: FigurePool;
  /** The command's own signal, or one that is also given when a queue is lost for long. */
  readonly stop: AbortSignal;
  /** How many workers score; of those that are lent, the most there were at once. */
  workers(): number;
  close(): Promise<void>;
}

/**
 * Workers that score dummies of a figure: threads of this machine, or those that are lent over a queue.
 * @throws StudyError for a queue that can't be used
 */
export async function scoringPool(
  source: FigureSource,
  figure: Figure,
  { workers = availableParallelism(), queue }: { workers?: number; queue?: string },
  stop: AbortSignal,
): Promise<ScoringPool> {
  if (queue === undefined) {
    const pool = figurePool(source, workers);
    return { pool, stop, workers: () => workers, close: () => pool.close() };
  }
  const address = addressOf(queue);
  // Nothing of Redis is loaded before it is asked for.
  const { QueuePool } = await import('../queue/queue-pool.js');
  const layout = new Layout(new Scorer(figure).score(figure.start));
  const pool = await QueuePool.open({ address, source, figure: figure.name, layout, tell });
  return {
    pool,
    stop: AbortSignal.any([stop, pool.lost]),
    workers: () => pool.mostWorkers,
    close: () => pool.close(),
  };
}
