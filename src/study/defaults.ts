import type { SearchWay } from './search-way.js';

/** As many as the demo scores well within a minute on two cores. */
export const SAMPLES = 4000;
export const SEED = 1;
export const SEARCH: SearchWay = 'evolution';
