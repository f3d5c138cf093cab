import type { SearchWay } from './search-way.js';

/** As many as the demo scores well within a minute on two cores. */
export const SAMPLES = 4000;
export const SEED = 1;
export const SEARCH: SearchWay = 'evolution';
/** Enough to try every dim of a large figure, and of one with several faults several together. */
export const TRIALS = 10_000;
/** More dummies than a study, or a run of tune, can hold. */
export const MOST_SAMPLES = 10_000_000;
export const MOST_SEED = 2 ** 32 - 1;
export const MOST_WORKERS = 256;
/** A study that ends by time ends within a week. */
export const MOST_SECONDS = 7 * 24 * 3600;
/** For each variant and seed: enough that the best of a small figure hardly depends on the seed. */
export const COMPARE_SAMPLES = 400;
/** All are kept to the end, some 300 bytes each: of six variants with ten seeds that is about a gigabyte. */
export const MOST_COMPARE_SAMPLES = 50_000;
/**
 * Fewer seeds than this can never be sure: with four against four, chance alone separates two samples wholly in 2 of 70
 * cases; with five, in 2 of 252.
 */
export const LEAST_SEEDS = 5;
/** The exact test counts all splits of the seeds of two variants. */
export const MOST_SEEDS = 10;
