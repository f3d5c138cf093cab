import { ASKED_OF_THE_DRAWING, declareLimit, found, moving, upTo } from './limit.js';

/** Two panels of a piece must hang together by more than a corner of theirs, or they wobble and tear. */
export const foldLength = declareLimit({
  name: 'fold length',
  unit: '%',
  scale: 10,
  late: true,
  fields: {
    /**
     * Least length of a fold on card, of how far the lesser of its two panels reaches along it, per cent. (Common practice, no
     * source: of folds that makers draw, half and more.)
     */
    foldLength: upTo(100, 25),
  },
  givesWay: ASKED_OF_THE_DRAWING,
  bound: (given) => ({ least: given.foldLength }),
  measure: moving(({ fold }) =>
    fold === null
      ? 'nothing to judge'
      : { value: fold.share, finding: found('hangs by little', fold.between, null) },
  ),
});
