/** As many as the demo scores well within a minute on two cores. */
export const SAMPLES = 4000;
export const SEED = 1;
/** Enough to try every dim of a large figure, and two at a time of the likeliest. */
export const TRIALS = 3000;
