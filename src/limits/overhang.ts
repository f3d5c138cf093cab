import { declareLimit, found, mm, whenShut } from './limit.js';

/** Shut, nothing may stick out of the book. */
export const overhang = declareLimit({
  name: 'overhang',
  unit: 'mm',
  scale: 1,
  fields: {
    /** How far card may stick out past the page's edges when shut, mm. */
    overhang: mm(0),
  },
  bound: (given) => ({ most: given.overhang }),
  measure: whenShut((shut) => ({
    value: shut.overhang,
    finding: found('sticks out', [shut.overhanging], 0),
  })),
});
