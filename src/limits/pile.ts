import { declareLimit, found, mm, whenShut } from './limit.js';

/** Shut, the book must not bulge. */
export const pile = declareLimit({
  name: 'pile',
  unit: 'mm',
  scale: 1,
  fields: {
    /** Thickest pile of card between the pages when shut, mm. */
    pile: mm(3),
  },
  bound: (given) => ({ most: given.pile }),
  measure: whenShut((shut) => ({ value: shut.pile, finding: found('piles up', [], 0) })),
});
