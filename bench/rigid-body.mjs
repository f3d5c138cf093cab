/**
 * The peer that a maker could use instead: a general rigid-body engine (Rapier), stepping one standing V-fold from 100° to
 * 40° of page angle. Both do the same figure; the engine steps through time, 0.1° a step, and then stands still until all
 * swinging has died down. Told are openings a second, and how far the two ends of each hinge stand apart.
 */
import RAPIER from '@dimforge/rapier3d-compat';
import { compileFigure } from '../dist/src/figure/figure.js';
import { parseFigure } from '../dist/src/figure/text/source.js';
import { Opening } from '../dist/src/motion/opening.js';
import { POSE } from '../dist/src/motion/pose.js';
import { cpu } from './examples.mjs';

const RADIANS = Math.PI / 180;
const G = 60 * RADIANS;
const P = 75 * RADIANS;
const START = 100 * RADIANS;

await RAPIER.init();
const engine = engineOpening();
const kernel = kernelOpenings(2000);
const ratio = kernel.perSecond / engine.perSecond;
console.log(
  `  engine: ${engine.perSecond.toFixed(1)} openings a second, hinges apart by up to ${engine.apart.toExponential(1)} mm`,
);
console.log(
  `  kernel: ${Math.round(kernel.perSecond).toLocaleString('en')} openings a second (180° to 0° in steps of 2°), hinges apart by up to ${kernel.apart.toExponential(1)} mm`,
);
console.log(
  `  ${Math.round(ratio).toLocaleString('en')} × as many openings; hinge errors ${Math.round(engine.apart / Math.max(kernel.apart, 1e-12)).toLocaleString('en')} × smaller`,
);

function kernelOpenings(rounds) {
  const figure = compileFigure(
    parseFigure(
      'page: { width: 150, height: 210 }\nparts:\n  - { name: fold, kind: v-fold, at: 60, glue: [60, 60], panels: [75, 75], feet: [60, 60], ridge: 60 }\n',
      'fold.yaml',
    ),
  );
  const assembly = figure.build(figure.start);
  const opening = new Opening();
  for (let i = 0; i < 200; i++) opening.run(assembly, 2);
  const ms = cpu(() => {
    for (let i = 0; i < rounds; i++) opening.run(assembly, 2);
  });
  let apart = 0;
  for (let frame = 0; frame < opening.count; frame++)
    for (const joint of assembly.joints) {
      if (joint.kind !== 'crease') continue;
      for (const [x, y] of [
        ['x0', 'y0'],
        ['x1', 'y1'],
      ]) {
        const [p, q] = [0, 1].map((side) => {
          const i = joint.between[side] * POSE;
          const line = joint.lines[side];
          const poses = opening.frame(frame);
          return [0, 4, 8].map((r) => poses[i + r] * line[x] + poses[i + r + 1] * line[y] + poses[i + r + 3]);
        });
        apart = Math.max(apart, Math.hypot(...p.map((v, k) => v - q[k])));
      }
    }
  return { perSecond: (1000 * rounds) / ms, apart };
}

/** In units of 10 mm. The page's left leaf is body 0, the right one body 1, the fold's panels 2 and 3. */
function engineOpening() {
  const left = [-Math.sin(G), Math.cos(G), 0];
  const right = [-Math.sin(G) * Math.cos(START), Math.cos(G), Math.sin(G) * Math.sin(START)];
  const h = [-Math.cos(START / 2), 0, Math.sin(START / 2)];
  const B = Math.sin(G) * Math.cos(START / 2);
  const mu = Math.atan2(B, Math.cos(G)) + Math.acos(Math.cos(P) / Math.hypot(Math.cos(G), B));
  const crease = [Math.sin(mu) * h[0], Math.cos(mu), Math.sin(mu) * h[2]];
  const middle = (u, v) => u.map((_, i) => 2 * (u[i] + v[i]));
  const centres = [[0, 0, 0], [0, 0, 0], middle(left, crease), middle(right, crease)];
  const hinges = [
    { bodies: [0, 2], axis: left },
    { bodies: [1, 3], axis: right },
    { bodies: [2, 3], axis: crease },
  ];
  const world = new RAPIER.World(new RAPIER.Vector3(0, 0, 0));
  world.timestep = 1 / 240;
  world.numSolverIterations = 16;
  const bodies = centres.map((centre, k) => {
    const kind = [RAPIER.RigidBodyDesc.fixed(), RAPIER.RigidBodyDesc.kinematicPositionBased()][k];
    const body = world.createRigidBody((kind ?? RAPIER.RigidBodyDesc.dynamic()).setTranslation(...centre));
    if (k > 1) {
      const whole = new RAPIER.Quaternion(0, 0, 0, 1);
      body.setAdditionalMassProperties(
        1,
        new RAPIER.Vector3(0, 0, 0),
        new RAPIER.Vector3(1, 1, 1),
        whole,
        true,
      );
      body.setLinearDamping(5);
      body.setAngularDamping(5);
    }
    return body;
  });
  const anchors = hinges.map(({ bodies: [a, b], axis }) => {
    const from = (k) => new RAPIER.Vector3(...[0, 1, 2].map((i) => 3 * axis[i] - centres[k][i]));
    world.createImpulseJoint(
      RAPIER.JointData.revolute(from(a), from(b), new RAPIER.Vector3(...axis)),
      bodies[a],
      bodies[b],
      true,
    );
    return [from(a), from(b)];
  });
  let apart = 0;
  const ms = cpu(() => {
    const turnTo = (angle) => {
      bodies[1].setNextKinematicRotation({ x: 0, y: -Math.sin(angle / 2), z: 0, w: Math.cos(angle / 2) });
      world.step();
    };
    for (let i = 1; i <= 600; i++) turnTo(i * 0.1 * RADIANS);
    for (let i = 0; i < 200; i++) turnTo(60 * RADIANS);
  });
  hinges.forEach(({ bodies: [a, b] }, k) => {
    const [p, q] = [a, b].map((body, side) => inWorld(bodies[body], anchors[k][side]));
    apart = Math.max(apart, 10 * Math.hypot(...p.map((v, i) => v - q[i])));
  });
  world.free();
  return { perSecond: 1000 / ms, apart };
}

/** A body's own point in the world: t + v + 2 w (u × v) + 2 u × (u × v) for the rotation (u, w). */
function inWorld(body, { x, y, z }) {
  const q = body.rotation();
  const t = body.translation();
  const c = [q.y * z - q.z * y, q.z * x - q.x * z, q.x * y - q.y * x];
  const d = [q.y * c[2] - q.z * c[1], q.z * c[0] - q.x * c[2], q.x * c[1] - q.y * c[0]];
  return [x, y, z].map((v, i) => [t.x, t.y, t.z][i] + v + 2 * (q.w * c[i] + d[i]));
}
