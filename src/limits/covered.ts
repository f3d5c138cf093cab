import * as z from 'zod';
import { declareLimit, found, NOTHING } from './limit.js';
import { overhang } from './overhang.js';

/** Below a page angle the pages must cover the card. */
export const covered = declareLimit({
  name: 'covered',
  unit: 'mm',
  scale: 1,
  fields: {
    overhang: overhang.fields.overhang,
    /** Page angle below which the pages must cover the card but for that much, degrees; 0: when shut. */
    coveredBelow: z.number().min(0).max(180).prefault(0),
  },
  applies: ({ coveredBelow }) => coveredBelow > 0,
  bound: (given) => ({ most: given.overhang }),
  measure({ lock, uncovered }, { coveredBelow }) {
    if (lock !== null && lock.pageAngle > coveredBelow)
      return { unknown: { because: 'it never shuts', pageAngle: lock.pageAngle } };
    const worst = uncovered?.[0];
    if (worst === undefined) return NOTHING;
    return {
      value: worst.past,
      finding: found('sticks out', [worst.panel], worst.pageAngle, { edge: worst.edge }),
    };
  },
});
