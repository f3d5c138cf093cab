import { describe, expect, it } from 'vitest';
import { CannotBuild } from '../../src/motion/cannot-build.js';
import { type KneeBend, Loop, type LoopJoint } from '../../src/motion/loop.js';
import { DEGREES, displace, fourBar, fourBarLoop, heading, layFlat, turnBetween } from './loop-figures.js';

/** What a leg is made of: thigh and shin, mm; where the hip is at each step of its way; play; the foot's anchor. */
interface Leg {
  thigh?: number;
  shin?: number;
  play?: number;
  bends?: KneeBend[];
  /** x, y, z of the hip and its panel's turn about x and y, by the part s of its way, 0 to 1. */
  hip: (s: number) => number[];
  /** Draws the knee on this side of the way from hip to foot. */
  drawn?: 1 | -1;
  /** The foot's hub sits on a patch whose crease is glued to the page, and may be lifted. */
  patch?: boolean;
}

/** A leg: panel 0 the page, 1 the hip's panel (driven); 2 the thigh, 3 the shin, whose ankle turns at the origin. */
function leg({ thigh = 50, shin = 50, play = 0, bends, hip, drawn = 1, patch }: Leg) {
  const poses = new Float64Array(60);
  const place = (s: number) => {
    const [x, y, z = 0, ax = 0, ay = 0] = hip(s);
    layFlat(poses, 1, 0, 0, 0);
    displace(poses, 1, [ax, ay, 0], [x, y, z]);
  };
  layFlat(poses, 0, 0, 0, 0);
  layFlat(poses, 4, 0, 0, 0);
  place(0);
  const [x, y] = hip(0);
  const span = Math.hypot(x, y);
  const cosine = (thigh * thigh + span * span - shin * shin) / (2 * thigh * span);
  const down = Math.atan2(-y, -x) + (cosine >= 1 ? 0 : drawn * Math.acos(cosine));
  const kneeX = x + thigh * Math.cos(down);
  const kneeY = y + thigh * Math.sin(down);
  layFlat(poses, 2, x, y, down);
  layFlat(poses, 3, kneeX, kneeY, Math.atan2(-kneeY, -kneeX));
  const joints: LoopJoint[] = [
    { kind: 'pivot', a: 1, b: 2, pointA: [0, 0], pointB: [0, 0], play },
    { kind: 'pivot', a: 2, b: 3, pointA: [thigh, 0], pointB: [0, 0], play },
    { kind: 'pivot', a: 3, b: patch ? 4 : 0, pointA: [shin, 0], pointB: [0, 0], play },
  ];
  // The patch's crease lies behind the ankle and square to the way that the hip moves.
  const crease = [
    [-8, -10],
    [8, -10],
  ] as const;
  if (patch) joints.push({ kind: 'crease', a: 4, b: 0, lineA: crease, lineB: crease });
  const loop = new Loop(patch ? [2, 3, 4] : [2, 3], joints, bends);
  loop.start(poses);
  const go = (s: number) => {
    place(s);
    loop.solve(poses);
    return [poses[39], poses[43], poses[47]];
  };
  return { loop, poses, go };
}

const parts = (count: number) => Array.from({ length: count }, (_, i) => (i + 1) / count);
const KNEE = 1;

describe('a limb drawn straight', () => {
  const hip = (s: number) => [0, 100 - 30 * s];

  it.each([0, 0.2])('bends the way that it is told, and the other way in mirror image: play %d', (play) => {
    const left = leg({ hip, play, bends: [{ joint: KNEE, side: 1 }] });
    const right = leg({ hip, play, bends: [{ joint: KNEE, side: -1 }] });
    for (const s of parts(30)) {
      const [x, y] = left.go(s);
      const [mirrored, same] = right.go(s);
      expect(mirrored).toBeCloseTo(-x, 6);
      expect(same).toBeCloseTo(y, 6);
      expect(left.loop.gap + right.loop.gap).toBeLessThan(1e-6);
      expect(left.loop.jump + right.loop.jump).toBe(0);
    }
    // From the hip, which is above, down to the knee: left is to the right of the picture.
    const [x] = left.go(1);
    if (play === 0) expect(x).toBeCloseTo(Math.sqrt(50 ** 2 - 35 ** 2), 6);
    else expect(x).toBeGreaterThan(30);
    expect(left.loop.undecided).toEqual([]);
  });

  it('is never left to round-off', () => {
    for (const side of [1, -1] as const) {
      for (const noise of [-1e-9, -1e-12, 1e-15, 1e-12, 1e-9]) {
        const { go, loop, poses } = leg({ hip, bends: [{ joint: KNEE, side }] });
        poses[39] += noise;
        loop.start(poses);
        expect(Math.sign(go(1 / 30)[0])).toBe(side);
      }
    }
  });

  it('is named when nobody says which way it bends', () => {
    const { loop, go } = leg({ hip });
    expect(loop.undecided).toEqual([KNEE]);
    expect(go(0.1)[0]).toBeGreaterThan(0);
    expect(leg({ hip: () => [0, 90] }).loop.undecided).toEqual([]);
  });

  it('stays straight where it is pulled, and bends its old way when let go', () => {
    for (const drawn of [1, -1] as const) {
      const { loop, go } = leg({ drawn, hip: (s) => [0, 97 + 6 * Math.sin(Math.PI * s)] });
      const gaps = parts(60).map((s) => {
        const [x] = go(s);
        const reach = 97 + 6 * Math.sin(Math.PI * s);
        if (reach < 99.9) expect(x * drawn).toBeGreaterThan(1);
        expect(loop.gap).toBeCloseTo(Math.max(0, reach - 100), 5);
        return loop.gap;
      });
      expect(Math.max(...gaps)).toBeCloseTo(3, 3);
    }
  });
});

describe('play', () => {
  it('leaves a limb lying where it lay until it is pushed', () => {
    // Three hubs with 0.5 mm to either side: the hip may go 1.5 mm along the line of a straight limb.
    const { poses, go } = leg({ play: 1, hip: (s) => [0, 100 - 0.4 * s], bends: [{ joint: KNEE, side: 1 }] });
    const drawn = poses.slice(24);
    go(0.5);
    go(1);
    expect(poses.slice(24)).toEqual(drawn);
  });

  it('gives by half of it in each hub, and the gap is what lacks beyond that', () => {
    const { loop, go } = leg({ play: 1, hip: (s) => [0, 97 + 6 * s] });
    for (const s of parts(60)) {
      go(s);
      expect(loop.gap).toBeCloseTo(Math.max(0, 97 + 6 * s - 100 - 3 * 0.5), 4);
    }
  });

  it('takes from the motion: the closer the waist to the hole, the more the limb moves', () => {
    // Common practice, no source. A crank that rocks by ±15°, and the swing of the rocker that it drives.
    const swing = (play: number) => {
      const { poses, turnTo, loop } = fourBarLoop([40, 120, 80, 100], 1.2, 1, { play });
      const headings: number[] = [];
      for (let i = 0; i <= 120; i++) {
        turnTo(1.2 + 0.26 * Math.sin((2 * Math.PI * i) / 60));
        if (i >= 60) headings.push(heading(poses, 3));
        expect(loop.gap).toBeLessThan(1e-6);
      }
      return (Math.max(...headings) - Math.min(...headings)) * DEGREES;
    };
    const tight = fourBar(40, 120, 80, 100, 1.46, 1);
    const back = fourBar(40, 120, 80, 100, 0.94, 1);
    expect(swing(0)).toBeCloseTo(((tight?.rocker ?? 0) - (back?.rocker ?? 0)) * DEGREES, 1);
    const swings = [0, 0.2, 0.5, 1, 2].map(swing);
    for (let i = 1; i < swings.length; i++) expect(swings[i]).toBeLessThan(swings[i - 1] - 0.05);
  });
});

describe('links too short', () => {
  // The hip swings out of the plane too, so that the hubs must tilt.
  const hip = (s: number) => [
    0,
    90 + 5 * Math.sin(Math.PI * s),
    10 * Math.sin(3 * s),
    0.5 * Math.sin(3 * s),
    0.3 * s,
  ];
  const worst = (thigh: number, patch = false) => {
    const { loop, go } = leg({ thigh, shin: 50, patch, hip: (s) => (s === 0 ? [0, 90] : hip(s)) });
    const worst = { gap: 0, lift: 0, tilt: 0 };
    for (const s of parts(90)) {
      go(s);
      worst.gap = Math.max(worst.gap, loop.gap);
      worst.lift = Math.max(worst.lift, loop.lift);
      worst.tilt = Math.max(worst.tilt, loop.tilt * DEGREES);
    }
    return worst;
  };

  it('open a gap that grows smoothly as they get shorter; longer ones lie', () => {
    const gaps = Array.from({ length: 26 }, (_, i) => worst(50 - i / 4).gap);
    // 95 mm and more are asked for; a limb of 100 only pays for its tilt.
    expect(gaps[0]).toBeLessThan(1e-3);
    expect(gaps[25]).toBeGreaterThan(1);
    for (let i = 1; i < gaps.length; i++) {
      const growth = gaps[i] - gaps[i - 1];
      expect(growth).toBeGreaterThan(-1e-4);
      // A quarter of a millimetre less of link is never more than that of gap.
      expect(growth).toBeLessThan(0.2501);
    }
  });

  it('pull the glued end off the page', () => {
    const short = worst(44, true);
    const long = worst(50, true);
    expect(long.lift).toBeLessThan(1e-3);
    expect(short.lift).toBeGreaterThan(0.1);
    expect(short.gap).toBeGreaterThan(short.lift);
    expect(long.tilt).toBeGreaterThan(5);
  });
});

describe('a loop with more freedom than it needs', () => {
  it('moves nothing that is not pushed', () => {
    // Three links between two driven points: nothing says how the middle one lies.
    const poses = new Float64Array(60);
    layFlat(poses, 0, 0, 0, 0);
    layFlat(poses, 1, 0, 0, 0);
    layFlat(poses, 2, 0, 0, 1.2);
    layFlat(poses, 3, 40 * Math.cos(1.2), 40 * Math.sin(1.2), 0.1);
    const x = 40 * Math.cos(1.2) + 40 * Math.cos(0.1);
    const y = 40 * Math.sin(1.2) + 40 * Math.sin(0.1);
    layFlat(poses, 4, x, y, Math.atan2(-y, 80 - x));
    const last = Math.hypot(80 - x, y);
    const pivot = (a: number, b: number, pointA: number): LoopJoint => ({
      kind: 'pivot',
      a,
      b,
      pointA: [pointA, 0],
      pointB: [0, 0],
      play: 0,
    });
    const loop = new Loop([2, 3, 4], [pivot(0, 2, 0), pivot(2, 3, 40), pivot(3, 4, 40), pivot(4, 1, last)]);
    layFlat(poses, 1, 80, 0, 0);
    loop.start(poses);
    const drawn = poses.slice();
    loop.solve(poses);
    for (let i = 0; i < poses.length; i++) expect(poses[i]).toBeCloseTo(drawn[i], 9);
    // Pushed to and fro, it comes back near to where it was, and turns smoothly.
    for (let i = 1; i <= 40; i++) {
      const before = poses.slice();
      layFlat(poses, 1, 80 + 5 * Math.sin((Math.PI * i) / 20), 0, 0);
      loop.solve(poses);
      expect(loop.gap).toBeLessThan(1e-7);
      for (const k of [2, 3, 4]) expect(turnBetween(before, poses, k) * DEGREES).toBeLessThan(2);
      expect(loop.jump).toBe(0);
    }
    for (let k = 2; k <= 4; k++)
      expect(Math.abs(heading(poses, k) - heading(drawn, k)) * DEGREES).toBeLessThan(2);
  });
});

describe('a leg whose foot is a tongue in a slit', () => {
  it('comes to rest at every step, though only the slight cost of tilt says where', () => {
    const poses = new Float64Array(48);
    layFlat(poses, 0, 0, 0, 0);
    const place = (s: number) => {
      layFlat(poses, 1, 0, 0, 0);
      displace(poses, 1, [0.5 * Math.sin(2 * s), 0.3 * s, 0], [10 * s, 80 - 15 * s, 8 * Math.sin(3 * s)]);
    };
    place(0);
    layFlat(poses, 2, 0, 80, -Math.PI / 2 + Math.acos(0.8));
    layFlat(poses, 3, 30, 40, -Math.PI / 2 - Math.acos(0.8));
    const loop = new Loop(
      [2, 3],
      [
        { kind: 'pivot', a: 1, b: 2, pointA: [0, 0], pointB: [0, 0], play: 0.2 },
        { kind: 'pivot', a: 2, b: 3, pointA: [50, 0], pointB: [0, 0], play: 0.2 },
        {
          kind: 'slide',
          a: 3,
          b: 0,
          pointA: [50, 0],
          alongB: [
            [-20, 0],
            [20, 0],
          ],
          play: 0.2,
        },
      ],
    );
    loop.start(poses);
    expect(loop.gap).toBeLessThan(1e-9);
    for (const s of parts(90)) {
      place(s);
      loop.solve(poses);
      expect(loop.gap).toBeLessThan(0.01);
    }
  });
});

describe('dead points', () => {
  it.each([
    ['a parallelogram', -1 as const],
    ['a crossed one', 1 as const],
  ])('are passed by %s as it goes through a line, and it goes on as it was', (_, branch) => {
    for (const offset of [0, 0.4, 1, 1.9]) {
      const links = [40, 100, 40, 100];
      const { loop, poses, turnTo } = fourBarLoop(links, -0.5, branch);
      let last = 0;
      for (let crank = -28 + offset; crank <= 28; crank += 2) {
        turnTo(crank / DEGREES);
        expect(loop.jump).toBe(0);
        last = crank;
      }
      // The knee has come over to the other side of the line.
      const [a, b, c, d] = links;
      const closed = fourBar(a, b, c, d, last / DEGREES, branch === 1 ? -1 : 1);
      expect(heading(poses, 2)).toBeCloseTo(closed?.link ?? Number.NaN, 7);
    }
  });

  it('make a leg jump whose hip passes close over the ankle, but not one that passes far from it', () => {
    // Thigh and shin differ: the folded leg locks and swings right round with the way from hip to ankle.
    const pass = (height: number) => {
      const { loop, go } = leg({ thigh: 50, shin: 45, hip: (s) => [40 - 80 * s, height] });
      let jump = 0;
      for (const s of parts(40)) {
        go(s);
        jump = Math.max(jump, loop.jump);
      }
      return jump * DEGREES;
    };
    expect(pass(20)).toBe(0);
    expect(pass(0.001)).toBeGreaterThan(30);
  });

  it('are told apart from fast motion, which is followed through', () => {
    // Half a millimetre off the ankle, the leg turns by some 75° in each of two frames; it does turn.
    const { loop, poses, go } = leg({ hip: (s) => [40 - 80 * s, 0.5] });
    let most = 0;
    let knee: number[] = [];
    for (const s of parts(40)) {
      const before = poses.slice();
      knee = go(s);
      most = Math.max(most, turnBetween(before, poses, 2), turnBetween(before, poses, 3));
      expect(loop.gap).toBeLessThan(1e-5);
      expect(loop.jump).toBe(0);
    }
    expect(most * DEGREES).toBeGreaterThan(60);
    const mirrored = leg({ hip: () => [-40, 0.5] }).go(1);
    for (let i = 0; i < 3; i++) expect(knee[i]).toBeCloseTo(mirrored[i], 4);
  });
});

describe('a loop as such', () => {
  it('gives the same bytes each time, and again when it is taken back to the open figure', () => {
    const run = ({ poses, turnTo }: ReturnType<typeof fourBarLoop>) =>
      Array.from({ length: 60 }, (_, i) => {
        turnTo(0.3 + i / 30);
        return poses.slice();
      });
    const one = fourBarLoop([40, 120, 80, 100], 0.3, 1, { play: 0.3 });
    const open = one.poses.slice();
    const frames = run(one);
    expect(run(fourBarLoop([40, 120, 80, 100], 0.3, 1, { play: 0.3 }))).toEqual(frames);
    one.poses.set(open);
    expect(run(one)).toEqual(frames);
  });

  it('goes on from any frame that it is taken back to', () => {
    const { poses, turnTo, loop } = fourBarLoop([40, 120, 80, 100], 0.3, 1);
    let kept = poses.slice();
    for (let i = 1; i <= 60; i++) {
      turnTo(0.3 + i / 30);
      if (i === 30) kept = poses.slice();
    }
    poses.set(kept);
    turnTo(1.31);
    expect(heading(poses, 3)).toBeCloseTo(fourBar(40, 120, 80, 100, 1.31, 1)?.rocker ?? Number.NaN, 8);
    expect(loop.gap).toBeLessThan(1e-7);
  });

  it('keeps panels rigid over many turns', () => {
    const { poses, turnTo } = fourBarLoop([40, 120, 80, 100], 0, 1);
    for (let i = 1; i <= 3600; i++) turnTo(i / 20);
    for (const k of [24, 36]) {
      const at = (i: number, j: number) =>
        [0, 4, 8].reduce((sum, row) => sum + poses[k + row + i] * poses[k + row + j], 0);
      for (let i = 0; i < 3; i++)
        for (let j = 0; j < 3; j++) expect(at(i, j)).toBeCloseTo(i === j ? 1 : 0, 11);
    }
  });

  it('ends on poses that are no numbers, and says so', () => {
    const { poses, loop } = fourBarLoop([40, 120, 80, 100], 0.3, 1);
    poses[12] = Number.NaN;
    loop.solve(poses);
    expect(loop.gap).toBeNaN();
  });

  it('refuses joints and bends that make no sense', () => {
    const pivot: LoopJoint = { kind: 'pivot', a: 0, b: 1, pointA: [0, 0], pointB: [0, 0], play: 0.2 };
    const flat = [
      [1, 1],
      [1, 1],
    ] as const;
    const line = [
      [0, 0],
      [5, 0],
    ] as const;
    const cases: [() => Loop, RegExp][] = [
      [() => new Loop([1], [{ ...pivot, b: 0 }, pivot]), /panel to itself/],
      [() => new Loop([1], [{ ...pivot, play: -0.1 }]), /play below 0/],
      [() => new Loop([1], [{ ...pivot, play: Number.NaN }]), /play below 0/],
      [() => new Loop([1], [{ ...pivot, pointA: [Number.NaN, 0] }]), /no number/],
      [() => new Loop([1, 2], [pivot]), /panel 2 .* hangs on no joint/],
      [() => new Loop([1, 1], [pivot]), /free twice/],
      [
        () => new Loop([1], [{ kind: 'crease', a: 0, b: 1, lineA: line, lineB: flat }]),
        /crease .* no length/,
      ],
      [
        () => new Loop([1], [{ kind: 'slide', a: 0, b: 1, pointA: [0, 0], alongB: flat, play: 0 }]),
        /slide .* no length/,
      ],
      [() => new Loop([1], [pivot], [{ joint: 0, side: 1 }]), /joint 0 is no knee/],
    ];
    for (const [make, message] of cases) {
      expect(make).toThrow(message);
      expect(make).toThrow(CannotBuild);
    }
    expect(() => new Loop([1], [pivot])).not.toThrow();
  });
});
