import { ASKED_OF_THE_DRAWING, declareLimit, found, moving, upTo } from './limit.js';

/** A large piece that is glued on by a corner flaps, and peels off. */
export const glueShare = declareLimit({
  name: 'glued share',
  unit: '%',
  scale: 2,
  late: true,
  fields: {
    /**
     * Least share of any flat piece that is glued down, per cent of its card. (Common practice, no source: of arms and oars that
     * makers glue on by their end, 6 % and more.)
     */
    glueShare: upTo(100, 4),
  },
  givesWay: ASKED_OF_THE_DRAWING,
  applies: (_, { flatPieces }) => flatPieces,
  bound: (given) => ({ least: given.glueShare }),
  measure: moving(({ leastGlue }) =>
    leastGlue === null || leastGlue.share === null
      ? 'nothing to judge'
      : {
          value: leastGlue.share.value,
          finding: found('holds too little', leastGlue.share.between, null),
        },
  ),
});
