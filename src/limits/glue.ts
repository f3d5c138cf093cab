import { declareLimit, found, GLUE_SCALE, moving, NOTHING, upTo } from './limit.js';

/** Glue must lie on card, on nothing else, and where nothing moves. */
export const glue = declareLimit({
  // Not 'glue', as its field is: that would be taken for the glue that there is, which 'glue area' judges.
  name: 'stray glue',
  unit: 'mm²',
  scale: GLUE_SCALE,
  late: true,
  fields: {
    /** How much of any one place of glue may lie off card, on something else, or where something moves, mm². */
    glue: upTo(100_000, 25),
  },
  bound: (given) => ({ most: given.glue }),
  measure: moving(({ glue: [worst] }) =>
    worst === undefined
      ? NOTHING
      : {
          value: worst.area,
          finding: found('is glued badly', [worst.glued, worst.receiver], null, {
            glue: worst.kind,
            other: worst.other,
          }),
        },
  ),
});
