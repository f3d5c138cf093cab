import { tell } from './print.js';

/** Stops at Ctrl-C, so that a run ends cleanly; the second time, the program ends at once. */
export function stopOnSignal(message: string): AbortSignal {
  const stop = new AbortController();
  process.once('SIGINT', () => {
    tell('', `${message} Ctrl-C again ends at once.`);
    stop.abort();
  });
  return stop.signal;
}
