import { ASKED_OF_THE_DRAWING, declareLimit, found, mm, moving } from './limit.js';

/** Card between holes, slits, edges and creases must be broad enough not to tear. */
export const cardBreadth = declareLimit({
  name: 'card breadth',
  unit: 'mm',
  scale: 1,
  late: true,
  fields: {
    /** Least breadth of card anywhere, mm. (Common practice, no source.) */
    cardBreadth: mm(1.5),
  },
  givesWay: ASKED_OF_THE_DRAWING,
  bound: (given) => ({ least: given.cardBreadth }),
  measure: moving(({ narrowest }) =>
    narrowest === null
      ? 'nothing to judge'
      : {
          value: narrowest.breadth,
          finding: found('is too narrow', narrowest.panels, null, { points: [narrowest.at] }),
        },
  ),
});
