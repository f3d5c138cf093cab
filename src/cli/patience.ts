import { tell } from './print.js';

/** How often it is said that work goes on, ms. */
const TOLD_EVERY = 10_000;

/**
 * Tells now and then that work without a count goes on, and how it can be ended. To be asked from within the work: what
 * does not let go of the thread lets no clock ring either.
 * @param what is done, such as 'looking for cuts'
 */
export function patience(what: string): (stage?: string) => void {
  const started = performance.now();
  let told = started;
  return (stage = what) => {
    const now = performance.now();
    if (now - told < TOLD_EVERY) return;
    told = now;
    tell(`… ${stage}, for ${Math.round((now - started) / 1000)} s so far. Ctrl-C ends it.`);
  };
}
