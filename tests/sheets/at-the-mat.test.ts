import { readdirSync } from 'node:fs';
import {
  DoubleSide,
  Mesh,
  MeshBasicMaterial,
  Path,
  Raycaster,
  Shape,
  ShapeGeometry,
  Vector2,
  Vector3,
} from 'three';
import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { patterns } from '../../src/figure/patterns/index.js';
import { readFigure } from '../../src/figure/read.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { inside, moved } from '../../src/geometry/plane.js';
import type { Assembly } from '../../src/motion/assembly.js';
import { CannotBuild } from '../../src/motion/cannot-build.js';
import { POSE, worldPoint } from '../../src/motion/pose.js';
import { type Random, stream } from '../../src/search/random.js';
import { drawFlatStep } from '../../src/sheets/guide/flat-step.js';
import { type Bond, liesOn } from '../../src/sheets/nets/bonds.js';
import type { Net } from '../../src/sheets/nets/net.js';
import type { Plan } from '../../src/sheets/plan.js';
import { assemble, type PlainPart, posesAt, rectangle } from '../support/assemble.js';
import { example, figures, plan, post } from './figures.js';
import { poseOf, toPanel } from './in-space.js';

/**
 * The order of work, gone through step by step with the figure in space (three.js): what is fixed already, what lies over
 * the glue, what goes through a slot. What a hand can reach is common practice, no source: 20 mm over the glue must be
 * free at some page angle.
 */

/** A strap that is glued at both ends and passes through a sail twice; it comes first in the file. */
const strap = () =>
  assemble([
    { name: 'strap', kind: 'parallel-fold', at: 60, length: 6, glue: [50, 50], widths: [50.3, 50.3] },
    { name: 'sail', kind: 'v-fold', at: 40, glue: [45, 45], panels: [60, 60], feet: [90, 90], ridge: 90 },
    ...['left', 'right'].map((side) => ({
      name: `${side} slot`,
      kind: 'slot',
      on: `sail ${side}`,
      outline: [
        [20, 2],
        [40, 2],
        [40, 20],
        [20, 20],
      ],
      passes: `strap ${side}`,
    })),
  ]);

const fromFile = (path: string) => () => {
  const figure = compileFigure(readFigure(path));
  return figure.build(figure.start);
};
const bases = readdirSync('tests/broken/bases').map(
  (file) => [file, fromFile(`tests/broken/bases/${file}`)] as const,
);
const begun = patterns.map(
  ({ name, text }) =>
    [
      `pattern ${name}`,
      () => {
        const figure = compileFigure(parseFigure(text, name));
        return figure.build(figure.start);
      },
    ] as const,
);
const all: [string, () => Assembly][] = [
  ...Object.entries(figures),
  ['stuck-drummer', () => example('stuck-drummer')],
  ['strap through a sail', strap],
  ...bases.map(([name, make]): [string, () => Assembly] => [name, make]),
  ...begun.map(([name, make]): [string, () => Assembly] => [name, make]),
];

/** 1 where the faces of two panels look the same way, −1 where they look opposite ways. */
const sameWay = (poses: Float64Array, a: number, b: number): number =>
  [2, 6, 10].reduce((sum, at) => sum + poses[a * POSE + at] * poses[b * POSE + at], 0);

describe.each(all)('the steps of %s', (_, make) => {
  const assembly = make();
  const made = plan(assembly, { paper: 'A2' });

  it('use every piece, and every place of glue once', () => {
    const { steps, pieces, bonds, warnings } = made;
    expect(warnings.filter((line) => line.includes('No order'))).toEqual([]);
    expect(steps.flatMap((step) => step.bonds)).toHaveLength(bonds.length);
    expect(new Set(steps.flatMap((step) => step.bonds)).size).toBe(bonds.length);
    const handled = new Set(steps.flatMap(({ nets, hub }) => [...nets, ...(hub === null ? [] : [hub.net])]));
    for (const { net } of pieces) if (net.piece !== 'page') expect(handled.has(net), net.name).toBe(true);
    for (const { closedOn, bonds: own } of steps) if (closedOn !== null) expect(own.at(-1)).toBe(closedOn);
  });

  it('do on the mat what does not hang on the page yet, and never go back to the mat with it', () => {
    const hung = new Set(made.pieces.map(({ net }) => net).filter(({ piece }) => piece === 'page'));
    for (const { where, nets, bonds, kind } of made.steps) {
      const touched = [...nets, ...bonds.flatMap(({ giver, receiver }) => [giver.net, receiver.net])];
      const pageOnly = touched.every(({ piece }) => piece === 'page');
      if (!pageOnly) expect(where, nets[0].name).toBe(touched.some((net) => hung.has(net)) ? 'book' : 'mat');
      if (where === 'book' && kind !== 'thread') for (const net of touched) hung.add(net);
    }
  });

  it('glue nothing under what is fixed already', () => {
    expect(outOfReach(assembly, made)).toEqual([]);
  });

  it('are drawn flat where card lies flat on card, each letter on both', () => {
    const letters = new Map(made.bonds.map(({ bond, letter }) => [bond, letter]));
    for (const step of made.steps) {
      const flat = drawFlatStep(assembly, step, made.pieces, letters, 78, 58);
      if (step.where === 'book') expect(flat).toBeNull();
      if (flat === null) continue;
      const [below, above, top] = flat;
      for (const { text, at } of top.texts) {
        if (/^white/.test(text)) expect(text).toMatch(/up$/);
        // A letter beside another has a leader; these have room.
        else if (step.bonds.length === 1)
          for (const { fills } of [below, above]) expect(inside(fills[0].rings[0], at), text).toBe(true);
      }
    }
  });

  it('know of card on card where it lies, and whether face down', () => {
    const p = new Float64Array(3);
    const q = new Float64Array(3);
    for (const joint of assembly.joints) {
      if (joint.kind !== 'pivot') continue;
      const [on, panel] = joint.between;
      const across = liesOn(assembly, panel, on);
      const facing = sameWay(assembly.open, panel, on);
      expect(across.flip).toBe(facing < 0 ? -1 : 1);
      // A hub may tilt: then it does not lie flat there.
      if (Math.abs(facing) < 1 - 1e-9) continue;
      for (const point of [
        [0, 0],
        [30, 0],
        [0, 20],
      ] as const) {
        worldPoint(assembly.open, panel, point[0], point[1], p);
        const [x, y] = moved(across, point);
        worldPoint(assembly.open, on, x, y, q);
        expect(Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2])).toBeLessThan(1e-3);
      }
    }
  });

  it('pass what goes through a slot while one end of it is loose', () => {
    const poses = posesAt(assembly, 100);
    const done = new Set<Bond>();
    const pins = new Set<string>();
    for (const { kind, nets, through, bonds, hub } of made.steps) {
      if (kind === 'thread') {
        const holder = poseOf(poses, through);
        const normal = new Vector3(0, 0, 1).transformDirection(holder);
        const origin = new Vector3().setFromMatrixPosition(holder);
        const held = [...done].flatMap((bond) =>
          [bond.giver, bond.receiver].flatMap(({ net, area, shapes }) => {
            const own = net.areas[area];
            const [x, y] = shapes[0].outline.reduce(
              ([a, b], p) => [a + p[0] / shapes[0].outline.length, b + p[1] / shapes[0].outline.length],
              [0, 0],
            );
            if (net !== nets[0] || own.panel < 0) return [];
            return [new Vector3(x, y, 0).applyMatrix4(poseOf(poses, own.panel).multiply(toPanel(own)))];
          }),
        );
        const sides = new Set(held.map((at) => Math.sign(at.sub(origin).dot(normal))));
        expect(sides.size, `${nets[0].name} through ${nets[1].name}`).toBeLessThan(2);
      }
      for (const bond of bonds) done.add(bond);
      if (hub !== null) pins.add(hub.net.name);
    }
  });
});

/** Parts of a book page after page along the gutter, of random sorts and sizes, in a random order as far as may be. */
function chanceFigure(random: Random): PlainPart[] {
  const mm = (least: number, most: number) => Math.round(2 * (least + (most - least) * random.next())) / 2;
  const one = <T>(all: readonly T[]): T => all[random.below(all.length)];
  const flag = (name: string, on: string): PlainPart => ({
    name,
    kind: 'stiffener',
    on,
    at: [mm(4, 10), mm(4, 8)],
    size: [mm(12, 22), mm(10, 18)],
    face: one(['front', 'back']),
  });
  const tent = (name: string, at: number, length: number, glue: number, more = 0): PlainPart => ({
    name,
    kind: 'parallel-fold',
    at,
    length,
    glue: [glue, glue],
    widths: [glue + more, glue + more],
    tab: { side: one(['inner', 'outer']) },
  });
  const blocks: ((n: number, at: number) => PlainPart[][])[] = [
    // A tent over a tent over a flat piece: what lies under must be glued before.
    (n, at) => [
      [
        tent(`roof ${n}`, at, 50, mm(48, 60), mm(4, 12)),
        flag(`on roof ${n}`, `roof ${n} ${one(['left', 'right'])}`),
      ],
      [tent(`room ${n}`, at + 8, 30, mm(25, 32), mm(0, 6)), flag(`in room ${n}`, `room ${n} left`)],
    ],
    // A sail on a tent's ridge, with flags on either face.
    (n, at) => {
      const side = mm(50, 70);
      return [
        [
          tent(`hull ${n}`, at, 45, mm(32, 40), mm(6, 12)),
          {
            name: `sail ${n}`,
            kind: 'v-fold',
            on: `hull ${n} ridge`,
            at: 20,
            glue: [side, side],
            panels: [side + 10, side + 10],
            feet: [22, 22],
            ridge: 30,
          },
          flag(`flag ${n}`, `sail ${n} left`),
        ],
      ];
    },
    // A box with an arm, and something glued on the arm.
    (n, at) => [
      [
        {
          name: `box ${n}`,
          kind: 'parallel-fold',
          shape: 'box',
          at,
          length: 50,
          glue: [mm(28, 34), mm(20, 26)],
        },
        {
          name: `arm ${n}`,
          kind: 'counter-fold',
          on: `box ${n} ridge`,
          at: 8,
          diagonal: 40,
          side: 15,
          length: 18,
        },
        flag(`sign ${n}`, `box ${n} right`),
      ],
    ],
    // Two posts and a board.
    (n, at) => [
      [
        { ...post(`near ${n}`, at + 6) },
        { ...post(`far ${n}`, at + 46) },
        {
          name: `board ${n}`,
          kind: 'plate',
          supports: ['near', 'far'].map((which) => ({
            panel: `${which} ${n} left`,
            line: [
              [40, 14],
              [56, 14],
            ],
          })),
          margin: mm(4, 8),
        },
      ],
    ],
    // A strap through a sail, before or after it in the file.
    (n, at) => {
      const glue = mm(46, 54);
      const sail: PlainPart = {
        name: `sheet ${n}`,
        kind: 'v-fold',
        at,
        glue: [45, 45],
        panels: [60, 60],
        feet: [80, 80],
        ridge: 80,
      };
      const strap = { ...tent(`strap ${n}`, at + 20, 6, glue, 0.3) };
      const slots = ['left', 'right'].map((side) => ({
        name: `${side} slot ${n}`,
        kind: 'slot',
        on: `sheet ${n} ${side}`,
        outline: rectangle(20, 18).map(([x, y]) => [x + 20, y + 2]),
        passes: `strap ${n} ${side}`,
      }));
      return [[...(random.below(2) === 0 ? [strap, sail] : [sail, strap]), ...slots]];
    },
  ];
  const groups = Array.from({ length: 1 + random.below(3) }, (_, n) => one(blocks)(n + 1, 8 + 66 * n)).flat();
  // Groups of parts that hang together come in any order.
  return groups
    .map((group) => [random.next(), group] as const)
    .sort(([a], [b]) => a - b)
    .flatMap(([, group]) => group);
}

it('of twenty random figures have an order, use each glue once, pass slots in time and reach all glue', () => {
  const random = stream(22, 'order of work');
  let [drawn, passes, built] = [0, 0, 0];
  for (let tries = 0; drawn < 20 && tries < 200; tries++) {
    const parts = chanceFigure(random);
    let assembly: Assembly;
    try {
      assembly = assemble(parts);
    } catch (error) {
      if (error instanceof CannotBuild) continue;
      throw error;
    }
    const made = plan(assembly, { paper: 'A2' });
    const told = `${tries}: ${parts.map(({ name }) => name).join(', ')}`;
    drawn++;
    built += made.pieces.length;
    expect(
      made.warnings.filter((line) => line.includes('No order')),
      told,
    ).toEqual([]);
    const done = made.steps.flatMap((step) => step.bonds);
    expect([done.length, new Set(done).size], told).toEqual([made.bonds.length, made.bonds.length]);
    expect(outOfReach(assembly, made), told).toEqual([]);
    const names = made.steps.map(({ name }) => name);
    made.steps.forEach(({ kind, nets: [limb], name }, i) => {
      if (kind !== 'thread') return;
      passes++;
      // While it is passed through, some end of it is still to be fixed.
      const later = made.steps
        .slice(i + 1)
        .some(({ nets, kind: then }) => then === 'attach' && nets[0] === limb);
      expect(later, `${told}: ${name} in ${names.join('; ')}`).toBe(true);
    });
  }
  expect(drawn).toBe(20);
  expect(passes).toBeGreaterThan(6);
  expect(built).toBeGreaterThan(66);
});

it('a strap is passed through both its slots between the gluing of its two ends', () => {
  const { steps } = plan(strap(), { paper: 'A3' });
  const names = steps.map(({ name }) => name);
  // Each pass says which slot it is.
  const panels = strap().panels;
  expect(
    steps.flatMap(({ kind, through }) => (kind === 'thread' ? [panels[through].name] : [])).sort(),
  ).toEqual(['sail left', 'sail right']);
  expect(names).toEqual([
    'glue strap',
    'glue sail',
    'pass strap through sail',
    'pass strap through sail',
    'glue the other end of strap',
  ]);
});

/** Places of glue over which fixed card lies at every page angle looked at, when their step comes. */
function outOfReach(assembly: Assembly, { steps, bonds, pieces }: Plan): string[] {
  const angles = [180, 150, 120, 90];
  const frames = angles.map((angle) => posesAt(assembly, angle));
  const meshes = assembly.panels.map(({ outline, holes }) => {
    const points = (ring: Float64Array) =>
      Array.from({ length: ring.length / 2 }, (_, i) => new Vector2(ring[2 * i], ring[2 * i + 1]));
    const shape = new Shape(points(outline));
    shape.holes = holes.map((hole) => new Path(points(hole)));
    const mesh = new Mesh(new ShapeGeometry(shape), new MeshBasicMaterial({ side: DoubleSide }));
    mesh.matrixAutoUpdate = false;
    return mesh;
  });
  const left = new Map<Net, number>();
  const count = new Map<Net, number>();
  for (const { bond } of bonds)
    for (const net of new Set([bond.giver.net, bond.receiver.net])) {
      left.set(net, (left.get(net) ?? 0) + 1);
      count.set(net, (count.get(net) ?? 0) + 1);
    }
  const fixed = () =>
    pieces
      .map(({ net }) => net)
      .filter((net) => net.piece !== 'page' && left.get(net) === 0 && (count.get(net) ?? 0) > 1);
  const found: string[] = [];
  for (const step of steps) {
    const now = fixed();
    for (const bond of step.bonds) {
      const { receiver, giver } = bond;
      const own = receiver.net.areas[receiver.area];
      const over = now.filter((net) => net !== giver.net && net !== receiver.net);
      const free = frames.some((poses) => {
        const place = poseOf(poses, own.panel).multiply(toPanel(own));
        const up = new Vector3(0, 0, receiver.face).transformDirection(place);
        const targets = over
          .flatMap((net) => net.areas)
          .flatMap(({ panel }) => {
            if (panel < 0 || assembly.panels[panel].body === assembly.panels[own.panel].body) return [];
            meshes[panel].matrix.copy(poseOf(poses, panel));
            meshes[panel].matrixWorld.copy(meshes[panel].matrix);
            return [meshes[panel]];
          });
        const ring = receiver.shapes[0].outline;
        const [mx, my] = ring.reduce(([a, b], p) => [a + p[0] / ring.length, b + p[1] / ring.length], [0, 0]);
        const hits = ring.filter(([x, y]) => {
          const at = new Vector3((x + 2 * mx) / 3, (y + 2 * my) / 3, 0).applyMatrix4(place);
          return new Raycaster(at, up, 0.01, 20).intersectObjects(targets, false).length > 0;
        });
        return 2 * hits.length <= ring.length;
      });
      if (!free) found.push(`${step.name}: ${giver.net.areas[giver.area].name}`);
    }
    for (const bond of step.bonds)
      for (const net of new Set([bond.giver.net, bond.receiver.net])) left.set(net, (left.get(net) ?? 0) - 1);
  }
  return found;
}
