import { declareLimit, found, NOTHING } from './limit.js';

/** It must shut: a fold that can't close locks the page. What is left open counts, in degrees. */
export const shuts = declareLimit({
  name: 'shuts',
  unit: 'degrees',
  // Nothing else is known of what locks: a degree that is left open counts as much as a millimetre, so that to lock at once is
  // not nearer to working than to move and catch.
  scale: 1,
  // A figure that locks just before it is shut still is broken.
  leastExcess: 0.1,
  fields: {},
  bound: () => ({ most: 0 }),
  measure: ({ lock }) =>
    lock === null
      ? NOTHING
      : {
          value: lock.pageAngle,
          finding: found('locks', lock.at.panels, lock.pageAngle, { joint: lock.at.joint }, lock.at.part),
        },
});
