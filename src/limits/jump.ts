import { DEGREE_SCALE, declareLimit, found, moving, NOTHING, upTo } from './limit.js';

/** A limb must not snap over. */
export const jump = declareLimit({
  name: 'jump',
  unit: 'degrees',
  scale: DEGREE_SCALE,
  fields: {
    /** How far a limb may turn at once, where it passes a dead point, degrees. */
    jump: upTo(180, 0),
  },
  applies: (_, { chains }) => chains,
  bound: (given) => ({ most: given.jump }),
  measure: moving(({ chains }) => {
    if (chains === null) return NOTHING;
    const { value, at, pageAngle } = chains.jump;
    return {
      value,
      finding: at === null ? null : found('jumps', at.panels, pageAngle, { joint: at.joint }, at.part),
    };
  }),
});
