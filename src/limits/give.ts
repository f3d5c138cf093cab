import { declareLimit, found, mm, moving } from './limit.js';

/** How far joints may miss each other before card binds. */
export const give = declareLimit({
  name: 'give',
  unit: 'mm',
  scale: 1,
  fields: {
    /** How far card can be forced before it binds, mm. */
    give: mm(0.5),
  },
  bound: (given) => ({ most: given.give }),
  measure: moving(({ binding: { value, at, pageAngle } }) => ({
    value,
    finding: at === null ? null : found('does not meet', at.panels, pageAngle, { joint: at.joint }, at.part),
  })),
});
