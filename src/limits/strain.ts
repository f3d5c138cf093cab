import { STRENGTHS } from '../card/grade.js';
import { declareLimit, found, moving, NOTHING, upTo } from './limit.js';

/** Card must not be stretched or squeezed in its plane until it tears or stays bent. */
export const strain = declareLimit({
  name: 'strain',
  unit: '%',
  scale: 1,
  late: true,
  fields: {
    /** Greatest strain in the plane of the card, per cent. */
    strain: upTo(100, STRENGTHS.tears * 100),
    /** What is strained by more than this is stiff: it works, and is told, per cent. */
    easyStrain: upTo(100, STRENGTHS.strain * 100),
    /** So is what is bent until its faces are strained by more than this: there a line shows, per cent. */
    easyBend: upTo(100, STRENGTHS.marks * 100),
  },
  bound: (given) => ({ most: given.strain }),
  measure: moving(({ force }) => {
    if (force === null) return NOTHING;
    const { value, pageAngle, part } = force.strain;
    return {
      value: value * 100,
      finding: pageAngle === null ? null : found('is strained', [], pageAngle, null, part),
    };
  }),
});
