import { availableParallelism } from 'node:os';
import { addressOf } from '../queue/address.js';
import { counted } from '../text/phrases.js';

import { FINE } from './exit-codes.js';
import { say, tell } from './print.js';
import { stopOnSignal } from './stop-on-signal.js';

/**
 * Lends cores to studies on a queue, until Ctrl-C.
 * @returns the exit code
 * @throws StudyError for an address that can't be used, and when a study refuses what is answered
 */
export async function lendCores(queue: string, options: { workers?: number }): Promise<number> {
  const workers = options.workers ?? availableParallelism();
  const address = addressOf(queue);
  const { lend } = await import('../queue/lend.js');
  const stop = stopOnSignal('Ending: what is in hand is scored first.');
  tell(`Lending ${counted(workers, 'worker')} to studies at ${address.told}, until Ctrl-C.`);
  const scored = await lend({ address, workers, tell, stop });
  say(`Scored ${counted(scored, 'dummy', 'dummies')} for others.`);
  return FINE;
}
