import { declareLimit, found, mm, moving, NOTHING, upTo } from './limit.js';

/** How deep one panel may run into another anywhere in the opening. */
export const catches = declareLimit({
  name: 'catch',
  unit: 'mm',
  scale: 1,
  late: true,
  fields: {
    /** Deepest catch that may count, mm. */
    catch: mm(0),
    /** A contact whose push is less only presses, mm: about one card. */
    press: mm(0.3),
    /** A contact that bends card aside by less than this force only rubs, N. */
    rub: upTo(100, 0.5),
  },
  bound: (given) => ({ most: given.catch }),
  measure: moving(({ catch: worst }) =>
    worst === null
      ? NOTHING
      : {
          value: worst.depth,
          finding: found('catches', worst.between, worst.pageAngle, { points: worst.points }),
        },
  ),
});
