import { ASKED_OF_THE_DRAWING, declareLimit, found, GLUE_SCALE, moving, upTo } from './limit.js';

/** Glue needs enough card to hold. */
export const glueArea = declareLimit({
  name: 'glue area',
  unit: 'mm²',
  scale: GLUE_SCALE,
  late: true,
  fields: {
    /** Least area of any one place of glue, mm². (Common practice, no source.) */
    glueArea: upTo(100_000, 25),
  },
  givesWay: ASKED_OF_THE_DRAWING,
  bound: (given) => ({ least: given.glueArea }),
  measure: moving(({ leastGlue }) =>
    leastGlue === null
      ? 'nothing to judge'
      : {
          value: leastGlue.area.value,
          finding: found('holds too little', leastGlue.area.between, null),
        },
  ),
});
