import { ASKED_OF_THE_DRAWING, declareLimit, found, mm, moving } from './limit.js';

/** A sliver of glue peels off. */
export const glueBreadth = declareLimit({
  name: 'glue breadth',
  unit: 'mm',
  scale: 1,
  late: true,
  fields: {
    /** Least breadth of any one place of glue, mm: of the largest disc in it. (Common practice, no source.) */
    glueBreadth: mm(3),
  },
  givesWay: ASKED_OF_THE_DRAWING,
  bound: (given) => ({ least: given.glueBreadth }),
  measure: moving(({ leastGlue }) =>
    leastGlue === null
      ? 'nothing to judge'
      : {
          value: leastGlue.breadth.value,
          finding: found('holds too little', leastGlue.breadth.between, null),
        },
  ),
});
