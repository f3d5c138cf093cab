import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Assembly, LEFT_PAGE } from '../../../src/motion/assembly.js';
import { POSE, writePose } from '../../../src/motion/pose.js';
import { bodiesOf } from '../../../src/score/clash/bodies.js';
import { ClashTest } from '../../../src/score/clash/clash.js';
import {
  type BodyHinge,
  FLAT,
  type FoldAngle,
  FoldThrough,
  hingesOf,
  meetingAt,
} from '../../../src/score/clash/hinges.js';
import { assemble, open } from '../../support/assemble.js';

const RADIANS = Math.PI / 180;
const PRESSING = 0.3;

/**
 * A flap 60 mm long and `wide` mm wide, creased to the left page along a line `from` mm from the gutter; the page has card
 * on both sides of it. The fold angle, by page angle, in degrees: 0 when it lies on the page away from the gutter, 90 when
 * it stands up, 180 when it lies towards the gutter.
 */
function flapOn(
  foldAngle: (pageAngle: number) => number,
  { from = 60, wide = 30, holes = [] as number[][] } = {},
): Assembly {
  const assembly = assemble([]);
  assembly.panels[LEFT_PAGE].holes.push(...holes.map((hole) => Float64Array.from(hole)));
  const flap = assembly.addPanel({
    name: 'flap',
    part: 'flap',
    piece: 'flap',
    outline: [-wide, 0, 0, 0, 0, 60, -wide, 60],
  });
  assembly.addStep({
    part: 'flap',
    place(poses) {
      // To the last bit in the flat states, as the kernel's own steps are.
      const angle = foldAngle(Math.acos(-poses[POSE]) / RADIANS);
      const [c, s] =
        angle % 180 === 0
          ? [Math.cos(angle * RADIANS), 0]
          : [Math.cos(angle * RADIANS), Math.sin(angle * RADIANS)];
      writePose(poses, flap, -from, 20, 0, c, 0, -s, 0, 1, 0);
    },
  });
  assembly.addJoint({
    kind: 'crease',
    between: [LEFT_PAGE, flap],
    lines: [
      { x0: -from, y0: 20, x1: -from, y1: 80 },
      { x0: 0, y0: 0, x1: 0, y1: 60 },
    ],
    closesLoop: false,
    of: 'fold',
  });
  return assembly;
}

const hingeOf = (assembly: Assembly): BodyHinge =>
  hingesOf(assembly, bodiesOf(assembly)).find(({ b }) => assembly.panels[b].name === 'flap') as BodyHinge;
const clashOf = (assembly: Assembly) => new ClashTest().run(assembly, open(assembly), PRESSING);

describe('a crease', () => {
  it('knows how far card meets card from it, on either side', () => {
    const reaches = (assembly: Assembly) => {
      const { reachAt0, reachAt180 } = hingeOf(assembly);
      return [reachAt0, reachAt180];
    };
    // The page is 150 mm wide: 90 mm of it lie beyond a crease at 60 mm, and 60 mm before it.
    expect(reaches(flapOn((a) => a))).toEqual([30, 30]);
    expect(reaches(flapOn((a) => a, { wide: 70 }))).toEqual([70, 60]);
    expect(reaches(flapOn((a) => a, { wide: 120 }))).toEqual([90, 60]);
    expect(reaches(flapOn((a) => a, { from: 150 }))).toEqual([0, 30]);
  });

  it('counts what is glued on the flap as well', () => {
    const assembly = flapOn((a) => a);
    const flap = assembly.panelNamed('flap', '');
    const arm = assembly.addPanel({
      name: 'arm',
      part: 'arm',
      piece: 'arm',
      gluedTo: flap,
      outline: [-45, 10, -20, 10, -20, 15, -45, 15],
    });
    assembly.addStep({
      part: 'arm',
      place: (poses) => void poses.copyWithin(arm * POSE, flap * POSE, (flap + 1) * POSE),
    });
    expect(hingeOf(assembly)).toMatchObject({ reachAt0: 45, reachAt180: 45 });
    expect(meetingAt(assembly, hingeOf(assembly), 0)?.reach).toBeCloseTo(45, 9);
  });

  it('meets farthest from it at a place of both panels', () => {
    const assembly = flapOn((a) => a);
    const away = meetingAt(assembly, hingeOf(assembly), 0);
    expect(away?.reach).toBeCloseTo(30, 9);
    // 30 mm farther out on the page, and at the free edge of the flap, as high up on one as on the other.
    expect(away?.pointA[0]).toBeCloseTo(-90, 9);
    expect(away?.pointB[0]).toBeCloseTo(-30, 9);
    expect((away?.pointA[1] as number) - 20).toBeCloseTo(away?.pointB[1] as number, 9);
    const before = meetingAt(assembly, hingeOf(assembly), 180);
    expect(before?.pointA[0]).toBeCloseTo(-30, 9);
    expect(before?.pointB[0]).toBeCloseTo(-30, 9);
    expect((before?.pointA[1] as number) - 20).toBeCloseTo(before?.pointB[1] as number, 9);
  });

  it('meets nothing over a hole', () => {
    // All that the flap would meet is cut out, but for 12 mm at the crease.
    const partly = flapOn((a) => a, { holes: [[-95, 10, -72, 10, -72, 90, -95, 90]] });
    expect(meetingAt(partly, hingeOf(partly), 0)?.reach).toBeCloseTo(12, 9);
    const wholly = flapOn((a) => a, { holes: [[-95, 10, -60, 10, -60, 90, -95, 90]] });
    expect(meetingAt(wholly, hingeOf(wholly), 0)).toBeNull();
    expect(meetingAt(wholly, hingeOf(wholly), 180)?.reach).toBeCloseTo(30, 9);
  });

  it('of a tab is named for what the tab is glued to', () => {
    const assembly = assemble([
      { name: 'man', kind: 'v-fold', at: 100, glue: [60, 60], panels: [70, 70], feet: [40, 40], ridge: 40 },
    ]);
    const names = hingesOf(assembly, bodiesOf(assembly)).map(({ a, b }) =>
      [a, b]
        .map((k) => assembly.panels[k].name)
        .sort()
        .join(' – '),
    );
    expect(names.sort()).toEqual([
      'left page – man left',
      'left page – right page',
      'man left – man right',
      'man right – right page',
    ]);
  });
});

describe('a fold angle that is followed', () => {
  const followed = (angles: readonly number[], reachAt0: number, reachAt180: number) => {
    const follower = new FoldThrough({ reachAt0, reachAt180 } as BodyHinge, FLAT);
    for (const angle of angles)
      follower.follow({ sine: Math.sin(angle * RADIANS), cosine: Math.cos(angle * RADIANS) } as FoldAngle);
    return follower.through;
  };

  it('is through when it has gone past a flat state where card meets, by whatever way it came', () => {
    const steps = fc.array(fc.integer({ min: -80, max: 80 }), { minLength: 1, maxLength: 40, size: 'max' });
    const reach = fc.constantFrom([30, 30], [30, 0], [0, 30]);
    let through = 0;
    fc.assert(
      fc.property(steps, reach, fc.constantFrom(1, -1), (turns, [at0, at180], side) => {
        // Whole degrees and a bit, so that it is never quite flat again.
        const angles = [180, 180 - side * 40.3];
        for (const turn of turns) angles.push(angles[angles.length - 1] + turn);
        // It has left 180° on one side, and may turn as far as the next flat states where card meets: 180° on, or 360°
        // where nothing meets in between.
        const last = (angles[angles.length - 1] - 180) * -side;
        const [low, high] = [at180 > 0 ? 0 : -180, at0 > 0 ? 180 : 360];
        const expected = last < low ? (at180 > 0 ? 180 : 0) : last > high ? (at0 > 0 ? 0 : 180) : null;
        if (expected !== null) through++;
        expect(followed(angles, at0, at180)).toBe(expected);
      }),
      { seed: 3, numRuns: 1000 },
    );
    expect(through).toBeGreaterThan(200);
  });

  it('is on neither side as long as it is flat', () => {
    expect(followed([180, 180, 180], 30, 30)).toBeNull();
    expect(followed([0, 0.01, -0.01], 30, 30)).toBeNull();
  });
});

describe('a flap', () => {
  it('may turn from face to face on one side to face to face on the other', () => {
    expect(clashOf(flapOn((a) => a)).worst).toBeNull();
    expect(clashOf(flapOn((a) => 180 - a)).worst).toBeNull();
  });

  it.each([
    { what: 'on the page beyond its crease', fold: (a: number) => a - 10 * (1 - a / 180) },
    { what: 'on the page before its crease', fold: (a: number) => 190 * (1 - a / 180) },
    { what: 'behind the page, beyond its crease', fold: (a: number) => 10 * (1 - a / 180) - a },
  ])('that is folded 10° too far $what is pushed out of its plane by its reach times sin 10°', ({ fold }) => {
    const { worst, firstPageAngle } = clashOf(flapOn(fold));
    expect(worst?.pageAngle).toBe(0);
    expect(worst?.depth).toBeCloseTo(30, 6);
    expect(worst?.push).toBeCloseTo(30 * Math.sin(10 * RADIANS), 6);
    // It counts once the push is 0.3 mm: at asin(0.3/30) past flat, of 190° that it turns while the page turns by 180°.
    const tooFar = Math.asin(PRESSING / 30) / RADIANS;
    const starts = ((10 - tooFar) / 190) * 180;
    expect(Math.abs((firstPageAngle as number) - starts)).toBeLessThan(0.05);
  });

  it('that is folded on by more than a right angle is pushed by all of its reach', () => {
    const { worst } = clashOf(flapOn((a) => a - 110 * (1 - a / 180)));
    expect(worst?.push).toBeCloseTo(30, 6);
  });

  it('is pushed as far as card meets card', () => {
    // Beyond the crease the page has 12 mm of card.
    const { worst } = clashOf(flapOn((a) => a - 10 * (1 - a / 180), { from: 138 }));
    expect(worst?.depth).toBeCloseTo(12, 6);
    expect(worst?.push).toBeCloseTo(12 * Math.sin(10 * RADIANS), 6);
  });

  it('may fold through a hole, and on behind the page until it meets card', () => {
    const hole = [-95, 10, -60, 10, -60, 90, -95, 90];
    expect(clashOf(flapOn((a) => a - 10 * (1 - a / 180), { holes: [hole] })).worst).toBeNull();
    expect(clashOf(flapOn((a) => 180 - 360 * (1 - a / 180), { holes: [hole] })).worst).toBeNull();
    const { worst } = clashOf(flapOn((a) => 180 - 370 * (1 - a / 180), { holes: [hole] }));
    expect(worst?.push).toBeCloseTo(30 * Math.sin(10 * RADIANS), 6);
  });

  it('that dips through the page between two frames, and comes back, is found', () => {
    // At 91°, between the frames at 92° and 90°, it dips 2° under the page.
    const dip = (a: number) => (a / 91) * ((2.3 * (a - 91) ** 2) / (1 + (a - 91) ** 2 / 20) - 2 + lift);
    let lift = 0;
    expect(dip(90)).toBeGreaterThan(0);
    expect(dip(92)).toBeGreaterThan(0);
    const { worst } = clashOf(flapOn(dip));
    expect(Math.abs((worst?.pageAngle as number) - 91)).toBeLessThan(0.05);
    expect(worst?.push).toBeCloseTo(30 * Math.sin(2 * RADIANS), 3);
    // What only comes within 0.1° of it is not.
    lift = 2.1;
    expect(dip(91)).toBeCloseTo(0.1, 9);
    expect(clashOf(flapOn(dip)).worst).toBeNull();
  });
});
