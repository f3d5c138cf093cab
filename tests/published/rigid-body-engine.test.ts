import RAPIER from '@dimforge/rapier3d-compat';
import { beforeAll, describe, expect, it } from 'vitest';
import { Loop, type LoopJoint } from '../../src/motion/loop.js';
import { DEGREES, fourBar, fourBarLoop, layFlat } from '../motion/loop-figures.js';

/**
 * Source: Rapier, a general-purpose rigid-body engine (npm @dimforge/rapier3d-compat, Apache-2.0). It knows nothing of
 * card: bodies with mass and inertia, joined by hinges, pulled along by a body that is turned slowly. It steps through
 * time in single precision, so 1° is asked of it.
 */
beforeAll(() => RAPIER.init());

type Vector = readonly [number, number, number];
const vector = ([x, y, z]: Vector) => new RAPIER.Vector3(x, y, z);
const eachAxis = (of: (axis: number) => number): Vector => [of(0), of(1), of(2)];

/** A hinge between two bodies (panels by index): a point and a direction of its axis in the world, at the start. */
interface Hinge {
  bodies: [number, number];
  point: Vector;
  axis: Vector;
}

/**
 * Turns body 1 about an axis through the origin while body 0 stands still, and tells how far every body has turned
 * when it has turned by each of the angles (radians, growing). All bodies start unturned at the given centres.
 */
function turnBodies(centres: Vector[], hinges: Hinge[], axis: Vector, angles: number[]): number[][] {
  const world = new RAPIER.World(new RAPIER.Vector3(0, 0, 0));
  world.timestep = 1 / 240;
  world.numSolverIterations = 16;
  const bodies = centres.map((centre, k) => {
    const kind = [RAPIER.RigidBodyDesc.fixed(), RAPIER.RigidBodyDesc.kinematicPositionBased()][k];
    const body = world.createRigidBody((kind ?? RAPIER.RigidBodyDesc.dynamic()).setTranslation(...centre));
    if (k > 1) {
      const inertia = new RAPIER.Vector3(1, 1, 1);
      const whole = new RAPIER.Quaternion(0, 0, 0, 1);
      body.setAdditionalMassProperties(1, new RAPIER.Vector3(0, 0, 0), inertia, whole, true);
      body.setLinearDamping(5);
      body.setAngularDamping(5);
    }
    return body;
  });
  for (const {
    bodies: [a, b],
    point,
    axis: along,
  } of hinges) {
    const from = (k: number) => vector(eachAxis((i) => point[i] - centres[k][i]));
    const data = RAPIER.JointData.revolute(from(a), from(b), vector(along));
    world.createImpulseJoint(data, bodies[a], bodies[b], true);
  }
  let turned = 0;
  const turnTo = (angle: number) => {
    turned = angle;
    const s = Math.sin(angle / 2);
    bodies[1].setNextKinematicRotation({
      x: axis[0] * s,
      y: axis[1] * s,
      z: axis[2] * s,
      w: Math.cos(angle / 2),
    });
    world.step();
  };
  const result = angles.map((angle) => {
    const from = turned;
    const steps = Math.ceil(((angle - from) * DEGREES) / 0.1);
    for (let i = 1; i <= steps; i++) turnTo(from + ((angle - from) * i) / steps);
    // Stand still until all swinging has died down.
    for (let i = 0; i < 200; i++) turnTo(angle);
    return bodies.map((body) => {
      const q = body.rotation();
      return 2 * Math.atan2(Math.hypot(q.x, q.y, q.z), Math.abs(q.w)) * DEGREES;
    });
  });
  world.free();
  return result;
}

/** How far panel k has turned from one frame to another, degrees: half the trace less one is the cosine. */
function turnedBy(from: Float64Array, to: Float64Array, k: number): number {
  let trace = 0;
  for (const i of [0, 1, 2, 4, 5, 6, 8, 9, 10]) trace += from[12 * k + i] * to[12 * k + i];
  return Math.acos(Math.max(-1, Math.min(1, (trace - 1) / 2))) * DEGREES;
}

describe('a rigid-body engine', () => {
  it('turns the panels of a V-fold as the loop does', () => {
    // On the gutter, glue lines at 60° to it, panels of 75°; opened from 100° to 40°. Lengths in mm for the loop, in
    // units of 10 mm for the engine.
    const g = 60 / DEGREES;
    const p = 75 / DEGREES;
    const start = 100 / DEGREES;
    const left: Vector = [-Math.sin(g), Math.cos(g), 0];
    const right = (phi: number): Vector => [
      -Math.sin(g) * Math.cos(phi),
      Math.cos(g),
      Math.sin(g) * Math.sin(phi),
    ];
    // By symmetry the crease lies in the plane that halves the angle between the pages: c = cos μ y + sin μ h with
    // h = (−cos(φ/2), 0, sin(φ/2)) and h·L = sin g cos(φ/2). So c·L = cos p is A cos μ + B sin μ = cos p with A = cos g,
    // B = sin g cos(φ/2), of whose two solutions the greater points up between the pages.
    const h = [-Math.cos(start / 2), 0, Math.sin(start / 2)];
    const A = Math.cos(g);
    const B = Math.sin(g) * Math.cos(start / 2);
    const mu = Math.atan2(B, A) + Math.acos(Math.cos(p) / Math.hypot(A, B));
    const crease: Vector = [Math.sin(mu) * h[0], Math.cos(mu), Math.sin(mu) * h[2]];

    const middle = (u: Vector, v: Vector): Vector => eachAxis((i) => 2 * (u[i] + v[i]));
    const centres: Vector[] = [[0, 0, 0], [0, 0, 0], middle(left, crease), middle(right(start), crease)];
    const at = (u: Vector): Vector => [3 * u[0], 3 * u[1], 3 * u[2]];
    const hinges: Hinge[] = [
      { bodies: [0, 2], point: at(left), axis: left },
      { bodies: [1, 3], point: at(right(start)), axis: right(start) },
      { bodies: [2, 3], point: at(crease), axis: crease },
    ];
    // Closing takes the right page from z towards −x: a turn about −y.
    const closing = [10, 20, 30, 45, 60].map((x) => x / DEGREES);
    const engine = turnBodies(centres, hinges, [0, -1, 0], closing);

    const poses = new Float64Array(48);
    const frame = (k: number, x: Vector, c: Vector) => {
      const z = [x[1] * c[2] - x[2] * c[1], x[2] * c[0] - x[0] * c[2], x[0] * c[1] - x[1] * c[0]];
      const length = Math.hypot(...z);
      const n = z.map((v) => v / length);
      const y = [n[1] * x[2] - n[2] * x[1], n[2] * x[0] - n[0] * x[2], n[0] * x[1] - n[1] * x[0]];
      for (let i = 0; i < 3; i++) poses.set([x[i], y[i], n[i], 0], 12 * k + 4 * i);
    };
    const pages = (phi: number) => {
      layFlat(poses, 0, 0, 0, 0);
      const [c, s] = [Math.cos(phi), Math.sin(phi)];
      poses.set([-c, 0, -s, 0, 0, 1, 0, 0, s, 0, -c, 0], 12);
    };
    pages(start);
    frame(2, left, crease);
    frame(3, right(start), crease);
    const line = (x: number, y: number) =>
      [
        [10 * x, 10 * y],
        [50 * x, 50 * y],
      ] as const;
    const joint = (a: number, b: number, lineA: readonly number[], lineB: readonly number[]): LoopJoint => ({
      kind: 'crease',
      a,
      b,
      lineA: line(lineA[0], lineA[1]),
      lineB: line(lineB[0], lineB[1]),
    });
    const loop = new Loop(
      [2, 3],
      [
        joint(2, 0, [1, 0], left),
        joint(3, 1, [1, 0], [Math.sin(g), Math.cos(g)]),
        joint(2, 3, [Math.cos(p), Math.sin(p)], [Math.cos(p), Math.sin(p)]),
      ],
    );
    loop.start(poses);
    expect(loop.gap).toBeLessThan(1e-9);
    const first = poses.slice();
    let done = 0;
    closing.forEach((by, n) => {
      for (; done < Math.round(by * DEGREES); done++) {
        pages(start - (done + 1) / DEGREES);
        loop.solve(poses);
      }
      for (const k of [2, 3]) {
        expect(Math.abs(engine[n][k] - turnedBy(first, poses, k))).toBeLessThan(1);
      }
    });
    for (const k of [2, 3]) expect(turnedBy(first, poses, k)).toBeGreaterThan(15);
  });

  it('turns the links of a limb on hubs as the loop does', () => {
    const [a, b, c, d] = [40, 120, 80, 100];
    const start = 30 / DEGREES;
    const closed = fourBar(a, b, c, d, start, 1);
    if (!closed) throw new Error('these links do not close');
    const tip: Vector = [a * Math.cos(start), a * Math.sin(start), 0];
    const knee: Vector = [tip[0] + b * Math.cos(closed.link), tip[1] + b * Math.sin(closed.link), 0];
    const ankle: Vector = [d, 0, 0];
    const small = (u: Vector, v: Vector = u): Vector => eachAxis((i) => (u[i] + v[i]) / 20);
    const z: Vector = [0, 0, 1];
    const hinges: Hinge[] = [
      { bodies: [1, 2], point: small(tip), axis: z },
      { bodies: [2, 3], point: small(knee), axis: z },
      { bodies: [3, 0], point: small(ankle), axis: z },
    ];
    const by = [20, 50, 90, 130].map((x) => x / DEGREES);
    const engine = turnBodies([[0, 0, 0], [0, 0, 0], small(tip, knee), small(knee, ankle)], hinges, z, by);

    const { poses, turnTo, loop } = fourBarLoop([a, b, c, d], start, 1);
    const first = poses.slice();
    let done = 0;
    by.forEach((angle, n) => {
      for (; done < Math.round(angle * DEGREES); done++) turnTo(start + (done + 1) / DEGREES);
      expect(loop.gap).toBeLessThan(1e-6);
      for (const k of [2, 3]) expect(Math.abs(engine[n][k] - turnedBy(first, poses, k))).toBeLessThan(1);
    });
    expect(turnedBy(first, poses, 3)).toBeGreaterThan(40);
  });
});
