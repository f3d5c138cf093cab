import type { SearchWay } from '../search/study-search.js';

/** As many as the demo scores well within a minute on two cores. */
export const SAMPLES = 4000;
export const SEED = 1;
export const SEARCH: SearchWay = 'evolution';
/** Enough to try every dim of a large figure, and two at a time of the likeliest. */
export const TRIALS = 3000;
/** For each variant and seed: enough that the best of a small figure hardly depends on the seed. */
export const COMPARE_SAMPLES = 400;
