import { ASKED_OF_THE_DRAWING, declareLimit, found, moving, upTo } from './limit.js';

/** A crease must lie on card on both of its sides. */
export const creaseOnCard = declareLimit({
  name: 'creases on card',
  unit: '%',
  scale: 10,
  late: true,
  fields: {
    /** How much of the length of any crease must lie on card, on either side, per cent. */
    creaseOnCard: upTo(100, 80),
  },
  givesWay: ASKED_OF_THE_DRAWING,
  bound: (given) => ({ least: given.creaseOnCard }),
  measure: moving(({ crease }) =>
    crease === null
      ? 'nothing to judge'
      : { value: crease.share, finding: found('hinges on air', crease.between, null) },
  ),
});
