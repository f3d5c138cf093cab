import { PRESSED_FLAT } from '../card/gives-way.js';
import { declareLimit, found, mm, moving } from './limit.js';

/** Card must stay between the pages while they turn. */
export const outside = declareLimit({
  name: 'outside',
  unit: 'mm',
  givesWay: PRESSED_FLAT,
  scale: 1,
  fields: {
    /** How far card may leave the wedge between the pages, mm: a page that leans on card this far presses it aside. */
    outside: mm(1),
  },
  bound: (given) => ({ most: given.outside }),
  measure: moving(({ outside: { value, panel, pageAngle } }) => ({
    value,
    finding: found('leaves the pages', [panel], pageAngle),
  })),
});
