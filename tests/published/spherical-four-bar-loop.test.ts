import { describe, expect, it } from 'vitest';
import { Loop } from '../../src/motion/loop.js';
import { DEGREES } from '../motion/loop-figures.js';

type Vector = [number, number, number];
const dot = (u: Vector, v: Vector) => u[0] * v[0] + u[1] * v[1] + u[2] * v[2];
const cross = (u: Vector, v: Vector): Vector => [
  u[1] * v[2] - u[2] * v[1],
  u[2] * v[0] - u[0] * v[2],
  u[0] * v[1] - u[1] * v[0],
];
const unit = (u: Vector): Vector => {
  const length = Math.hypot(...u);
  return [u[0] / length, u[1] / length, u[2] / length];
};

/**
 * A V-fold over the gutter: panels 0 and 1 are the pages, 2 and 3 stand on lines through one vertex, at angles g from
 * the gutter, and meet at a crease at angles p from those lines.
 *
 * Closed form, by the spherical law of cosines (any textbook of spherical trigonometry): with L and R the directions
 * of the lines, the crease c has c·L = cos p₁ and c·R = cos p₂, so that in the spherical triangle L R c the angle at L
 * has cos λ = (cos p₂ − cos p₁ cos LR) / (sin p₁ sin LR).
 */
function vFold([g1, g2]: number[], [p1, p2]: number[]) {
  const on = (angle: number) => [Math.cos(angle), Math.sin(angle)] as const;
  const lines = (phi: number) => {
    const L: Vector = [-Math.sin(g1), Math.cos(g1), 0];
    const R: Vector = [-Math.sin(g2) * Math.cos(phi), Math.cos(g2), Math.sin(g2) * Math.sin(phi)];
    return { L, R };
  };
  const closed = (phi: number): Vector => {
    const { L, R } = lines(phi);
    const toR = unit([0, 1, 2].map((i) => R[i] - dot(L, R) * L[i]) as Vector);
    const up = cross(toR, L);
    const LR = Math.acos(dot(L, R));
    const sine = Math.sin(p1) * Math.sin(LR);
    const angle = Math.acos(Math.max(-1, Math.min(1, (Math.cos(p2) - Math.cos(p1) * Math.cos(LR)) / sine)));
    return [0, 1, 2].map(
      (i) => Math.cos(p1) * L[i] + Math.sin(p1) * (Math.cos(angle) * toR[i] + Math.sin(angle) * up[i]),
    ) as Vector;
  };
  // Panel 2 has its x axis along L, panel 3 along R; the crease lies at +p₁ in the one and at −p₂ in the other.
  const frame = (poses: Float64Array, k: number, x: Vector, c: Vector, side: number) => {
    const z = unit(cross(x, c));
    const n: Vector = [side * z[0], side * z[1], side * z[2]];
    const y = cross(n, x);
    for (let i = 0; i < 3; i++) poses.set([x[i], y[i], n[i], 0], 12 * k + 4 * i);
  };
  const pages = (poses: Float64Array, phi: number) => {
    poses.set([1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0], 0);
    poses.set([-Math.cos(phi), 0, -Math.sin(phi), 0, 0, 1, 0, 0, Math.sin(phi), 0, -Math.cos(phi), 0], 12);
  };
  const along = ([x, y]: readonly [number, number]) =>
    [
      [10 * x, 10 * y],
      [60 * x, 60 * y],
    ] as const;
  const crease = (a: number, b: number, lineA: readonly [number, number], lineB: readonly [number, number]) =>
    ({ kind: 'crease', a, b, lineA: along(lineA), lineB: along(lineB) }) as const;
  const joints = [
    crease(2, 0, [1, 0], [-Math.sin(g1), Math.cos(g1)]),
    crease(3, 1, [1, 0], [Math.sin(g2), Math.cos(g2)]),
    crease(2, 3, on(p1), on(-p2)),
  ];
  return { joints, closed, lines, frame, pages, on };
}

/** Takes a V-fold through page angles as a loop: how far its crease is off the closed form, radians, and the gap, mm. */
function run(glue: number[], sectors: number[], angles: number[], bend?: 1 | -1) {
  const p = sectors.map((x) => x / DEGREES);
  const fold = vFold(
    glue.map((x) => x / DEGREES),
    p,
  );
  const loop = new Loop([2, 3], fold.joints, bend ? [{ joint: 2, side: bend }] : []);
  const poses = new Float64Array(48);
  const first = angles[0] / DEGREES;
  const { L, R } = fold.lines(first);
  fold.pages(poses, first);
  fold.frame(poses, 2, L, fold.closed(first), 1);
  fold.frame(poses, 3, R, fold.closed(first), -1);
  loop.start(poses);
  return angles.slice(1).map((phi) => {
    fold.pages(poses, phi / DEGREES);
    loop.solve(poses);
    const expected = fold.closed(phi / DEGREES);
    const offs = [fold.on(p[0]), fold.on(-p[1])].map(([x, y], n) => {
      const row = 24 + 12 * n;
      const crease = [0, 4, 8].map((i) => poses[row + i] * x + poses[row + i + 1] * y) as Vector;
      return Math.atan2(Math.hypot(...cross(crease, expected)), dot(crease, expected));
    });
    return { phi, off: Math.max(...offs), gap: loop.gap };
  });
}

const steps = (from: number, to: number) =>
  Array.from({ length: Math.abs(to - from) / 2 + 1 }, (_, i) => from + 2 * i * Math.sign(to - from));

describe('a spherical four-bar, solved as a loop', () => {
  it.each([
    ['standing when open', [60, 60], [75, 75]],
    ['opposite sectors equal, uneven', [70, 50], [55, 75]],
    ['uneven', [80, 60], [95, 75]],
    ['past a right angle', [110, 110], [80, 80]],
  ])('equals the closed form to 1e-6: %s', (_, glue, sectors) => {
    for (const { off, gap } of run(glue, sectors, steps(180, 2))) {
      expect(off).toBeLessThan(1e-6);
      expect(gap).toBeLessThan(1e-5);
    }
  });

  it('equals it from flat too, bent the way it is told', () => {
    // Panel 2 faces down when drawn flat: the side its face looks to, +1, is away from where the pages close.
    for (const { off, gap } of run([60, 60], [60, 60], steps(180, 2), -1)) {
      expect(off).toBeLessThan(1e-6);
      expect(gap).toBeLessThan(1e-5);
    }
    for (const { off } of run([60, 60], [60, 60], steps(180, 150), 1).slice(1))
      expect(off).toBeGreaterThan(0.05);
  });

  it('closes only while p₁ + p₂ is more than the angle between the lines', () => {
    // cos LR = cos² 60° + sin² 60° cos φ, so that LR = 100° = p₁ + p₂ at cos φ = (cos 100° − 0.25) / 0.75.
    const lock = Math.acos((Math.cos(100 / DEGREES) - 0.25) / 0.75) * DEGREES;
    const frames = run([60, 60], [50, 50], steps(60, 180));
    let last = 0;
    for (const { phi, off, gap } of frames) {
      if (phi < lock) {
        expect(off).toBeLessThan(1e-6);
        expect(gap).toBeLessThan(1e-5);
      } else {
        expect(gap).toBeGreaterThan(last);
        last = gap;
      }
    }
    expect(lock).toBeGreaterThan(100);
    expect(last).toBeGreaterThan(1);
  });
});
