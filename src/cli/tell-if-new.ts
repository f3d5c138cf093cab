import { tell } from './print.js';

/** Says so where there was nothing to go on with, though it was asked for. */
export function tellIfNew({ resume }: { readonly resume: boolean }, isOld: boolean): void {
  if (resume && !isOld) tell('There is nothing to go on with: starting from the beginning.');
}
