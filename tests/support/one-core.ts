import { syncBuiltinESMExports } from 'node:module';
import os from 'node:os';

/**
 * Does a task as on a machine of one core, so that what starts a worker thread for each core starts one: each takes a second of
 * processor time before V8 has compiled what is hot, and results are the same with any number of them. One task at a time.
 */
export async function onOneCore<T>(task: () => Promise<T>): Promise<T> {
  const { availableParallelism } = os;
  const see = (counts: () => number) => {
    os.availableParallelism = counts;
    syncBuiltinESMExports();
  };
  see(() => 1);
  try {
    return await task();
  } finally {
    see(availableParallelism);
  }
}
