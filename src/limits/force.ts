import * as z from 'zod';
import { STRENGTHS } from '../card/grade.js';
import { declareLimit, found, moving, NOTHING, upTo } from './limit.js';

/** Force at the page's edge that counts as one unit of violation, N: as much as may be at all. */
const FORCE_SCALE = STRENGTHS.hard;

/** The page must not be too hard to turn, shut as far as `shutTo` and open to 180°. */
export const force = declareLimit({
  name: 'force',
  unit: 'N',
  scale: FORCE_SCALE,
  late: true,
  fields: {
    /** Hardest push or pull at the page's edge, N. */
    force: upTo(10_000, STRENGTHS.hard),
    /** What needs more than this is stiff: it works, and is told, N. */
    easyForce: upTo(10_000, STRENGTHS.easy),
    /** How far it is to be shut, degrees; nearer, neither force nor what card bends aside is told. */
    shutTo: z.number().min(1).max(10).prefault(STRENGTHS.shut),
  },
  bound: (given) => ({ most: given.force }),
  measure: moving(({ force: forces }) => {
    if (forces === null) return NOTHING;
    const worst = forces.toShut.value >= forces.toOpen.value ? forces.toShut : forces.toOpen;
    return {
      value: worst.value,
      finding:
        worst.pageAngle === null
          ? null
          : found(
              worst === forces.toShut ? 'is hard to shut' : 'is hard to open',
              [],
              worst.pageAngle,
              null,
              worst.part,
            ),
    };
  }),
});
