import { PRESSED_FLAT } from '../card/gives-way.js';
import { declareLimit, found, mm, whenShut } from './limit.js';

/** Shut, card must lie on the left page. */
export const residue = declareLimit({
  name: 'residue',
  unit: 'mm',
  givesWay: PRESSED_FLAT,
  scale: 1,
  fields: {
    /** How far card may stand off the left page when shut, mm, its thickness left out. */
    residue: mm(0.3),
  },
  bound: (given) => ({ most: given.residue }),
  measure: whenShut((shut) => ({ value: shut.residue, finding: found('stands off', [shut.standing], 0) })),
});
