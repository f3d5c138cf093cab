import { DEGREE_SCALE, declareLimit, found, moving, NOTHING, upTo } from './limit.js';

/** Hubs are of card: they tilt a little. */
export const tilt = declareLimit({
  name: 'tilt',
  unit: 'degrees',
  scale: DEGREE_SCALE,
  fields: {
    /** How far the two parts on a hub may tilt against each other, degrees. */
    tilt: upTo(90, 20),
  },
  applies: (_, { chains }) => chains,
  bound: (given) => ({ most: given.tilt }),
  measure: moving(({ chains }) => {
    if (chains === null) return NOTHING;
    const { value, at, pageAngle } = chains.tilt;
    return {
      value,
      finding: at === null ? null : found('tilts', at.panels, pageAngle, { joint: at.joint }, at.part),
    };
  }),
});
