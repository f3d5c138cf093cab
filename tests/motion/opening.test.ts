import { expect, test } from 'vitest';
import { Assembly } from '../../src/motion/assembly.js';
import { Opening } from '../../src/motion/opening.js';
import { POSE } from '../../src/motion/pose.js';
import { assemble, open } from '../support/assemble.js';

test.each([true, false])(
  'where a misfit is no number the page stops, whether it locks (%s) or binds',
  (locks) => {
    const assembly = new Assembly({ width: 148, height: 210 }, () => 0.3);
    const misfit = assembly.addMisfit({
      part: 'limb',
      of: 'gap',
      joint: 'ridge',
      panels: [],
      locksBeyond: locks ? 3 : null,
    });
    assembly.addStep({
      part: 'limb',
      place(poses, misfits) {
        // The right page's normal sinks below the left page's plane as the page angle falls under 90°.
        const risen = -poses[POSE + 10];
        misfits[misfit] = risen > 1e-9 ? Number.NaN : 0;
      },
    });
    const opening = new Opening();
    opening.run(assembly, 2);
    expect(opening.lock).toMatchObject({ part: 'limb', at: { joint: 'ridge' } });
    expect(opening.lock?.pageAngle).toBeCloseTo(90, 1);
    expect(opening.count).toBe(46);
  },
);

test.each([20.4, 20.9, 22])(
  'the sides of a box that points out over feet of 20 and %f mm meet all the way',
  (foot) => {
    const assembly = assemble([
      {
        name: 'box',
        kind: 'parallel-fold',
        shape: 'box',
        at: 40,
        length: 60,
        glue: [foot, 20],
        points: 'out',
      },
    ]);
    const opening = open(assembly);
    expect(opening.lock).toBeNull();
    for (let frame = 0; frame < opening.count; frame++) expect(Math.max(...opening.misfitsAt(frame))).toBe(0);
  },
);
