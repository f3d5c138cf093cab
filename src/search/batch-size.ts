/** A batch is so large that a search takes about so many. */
const BATCHES = 500;
/** Smaller batches leave two cores idle between them; larger ones keep the core that decides longer than they spread. */
const LEAST = 48;
const MOST = 4800;

/**
 * How many candidates are asked for at once, once something is known. It follows from the budget alone, never from how
 * many score: so many cores can share a large search, and any number of them gives the same results.
 * @param budget how many candidates are scored in all; infinite where that is not known
 */
export function batchSize(budget: number): number {
  if (!Number.isFinite(budget)) return LEAST;
  return Math.min(MOST, Math.max(LEAST, Math.round(budget / BATCHES)));
}
