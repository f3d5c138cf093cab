import { BENDS_ASIDE } from '../card/gives-way.js';
import { declareLimit, found, mm, moving } from './limit.js';

/** Card must stay between the pages while they turn. */
export const outside = declareLimit({
  name: 'outside',
  unit: 'mm',
  givesWay: BENDS_ASIDE,
  scale: 1,
  fields: {
    /** How far card may leave the wedge between the pages, mm. */
    outside: mm(0.3),
  },
  bound: (given) => ({ most: given.outside }),
  measure: moving(({ outside: { value, panel, pageAngle } }) => ({
    value,
    finding: found('leaves the pages', [panel], pageAngle),
  })),
});
