import * as polyclip from 'polyclip-ts';
import { Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { areaOf, type Ring } from '../../src/geometry/plane.js';
import type { Bond, Spot } from '../../src/sheets/nets/bonds.js';
import { assemble, type PlainPart, posesAt } from '../support/assemble.js';
import { figures, plan } from './figures.js';
import { poseOf, toPanel } from './in-space.js';

const sizes = (spot: Spot) =>
  spot.shapes
    .flatMap(({ outline, holes }) => [outline, ...holes].map((ring) => Math.abs(areaOf(ring))))
    .sort();

describe.each(Object.keys(figures))('glue of %s', (name) => {
  const assembly = figures[name]();
  const made = plan(assembly, { paper: 'A2' });

  it('gives every letter exactly one partner, of the same size', () => {
    const letters = new Map<string, { gives: number; receives: number; areas: number[][] }>();
    for (const { marks } of made.pieces)
      for (const { letter, receives, spot } of marks) {
        const entry = letters.get(letter) ?? { gives: 0, receives: 0, areas: [] };
        letters.set(letter, entry);
        entry[receives ? 'receives' : 'gives']++;
        entry.areas.push(sizes(spot));
      }
    const joints = assembly.joints.filter(({ kind }) => kind === 'glue').length;
    expect(letters.size).toBeGreaterThanOrEqual(joints);
    for (const [letter, { gives, receives, areas }] of letters) {
      expect([gives, receives], letter).toEqual([1, 1]);
      areas[0].forEach((area, i) => {
        expect(Math.abs(area - areas[1][i]), letter).toBeLessThan(0.1);
      });
    }
    // Letters come in the order in which they are glued, without a gap.
    expect(made.bonds.map(({ letter }) => letter).slice(0, 3)).toEqual(
      ['A', 'B', 'C'].slice(0, made.bonds.length),
    );
  });

  it.each([170, 90])(
    'lays face on face, on the side where the part stands, at page angle %d',
    (pageAngle) => {
      const poses = posesAt(assembly, pageAngle);
      for (const { bond } of made.bonds) {
        const [giving, receiving] = [outward(bond.giver, bond, poses), outward(bond.receiver, bond, poses)];
        expect(giving.dot(receiving), bond.giver.net.areas[bond.giver.area].name).toBeCloseTo(-1, 6);
        if (bond.of !== 'tab') continue;
        const tab = bond.giver.net.areas[bond.giver.area];
        const crease = assembly.joints.find(
          (joint) => joint.kind === 'crease' && joint.of === 'foot' && joint.between[0] === tab.panel,
        );
        if (crease?.kind !== 'crease') throw new Error('a tab without a crease');
        // The middle of the part's card, seen from its crease: above the glued face, unless the two lie flat.
        const [{ x0, y0, x1, y1 }] = crease.lines;
        const foot = new Vector3((x0 + x1) / 2, (y0 + y1) / 2, 0).applyMatrix4(poseOf(poses, tab.panel));
        const owner = assembly.panels[crease.between[1]];
        const middle = new Vector3(0, 0, 0);
        for (let i = 0; i < owner.outline.length; i += 2)
          middle.add(
            new Vector3(owner.outline[i], owner.outline[i + 1], 0).divideScalar(owner.outline.length / 2),
          );
        middle.applyMatrix4(poseOf(poses, crease.between[1]));
        expect(middle.sub(foot).dot(receiving), tab.name).toBeGreaterThan(-0.05);
      }
    },
  );

  it('sets the crease on the glue line, not the edge of the card', () => {
    const poses = posesAt(assembly, 120);
    for (const { bond } of made.bonds) {
      if (bond.line === null || bond.of !== 'tab') continue;
      const { net, area } = bond.giver;
      const fold = net.folds.find(({ between }) => between.includes(area));
      const joint = fold === undefined ? undefined : assembly.joints[fold.joint];
      if (fold === undefined || (joint?.kind === 'crease' && joint.closesLoop)) continue;
      const owner = net.areas[fold.between[0] === area ? fold.between[1] : fold.between[0]];
      if (owner.panel < 0) continue;
      const receiver = bond.receiver.net.areas[bond.receiver.area];
      const onOwner = poseOf(poses, owner.panel).multiply(toPanel(owner));
      const onReceiver = poseOf(poses, receiver.panel).multiply(toPanel(receiver));
      bond.line.forEach(([x, y], end) => {
        const glued = new Vector3(x, y, 0).applyMatrix4(onReceiver);
        const creased = new Vector3(...fold.line[end], 0).applyMatrix4(onOwner);
        expect(glued.distanceTo(creased), bond.giver.net.name).toBeLessThan(0.01);
      });
    }
  });

  it('marks one place in space on both of the two that are glued', () => {
    const poses = posesAt(assembly, 120);
    const corners = ({ net, area, shapes }: Spot) => {
      const own = net.areas[area];
      const inSpace = poseOf(poses, own.panel).multiply(toPanel(own));
      return shapes.flatMap(({ outline }) =>
        outline.map(([x, y]) => new Vector3(x, y, 0).applyMatrix4(inSpace)),
      );
    };
    for (const { bond, letter } of made.bonds) {
      // A join tab has no panel of its own.
      if (bond.of === 'join') continue;
      const received = corners(bond.receiver);
      for (const corner of corners(bond.giver))
        expect(Math.min(...received.map((other) => other.distanceTo(corner))), letter).toBeLessThan(0.01);
    }
  });

  it('keeps glue on the card of what receives it, and tabs off one another (polyclip-ts)', () => {
    const received = made.pieces.flatMap(({ marks }) => marks.filter(({ receives }) => receives));
    for (const { spot, letter } of received) {
      const { shape } = spot.net.areas[spot.area];
      for (const { outline } of spot.shapes)
        expect(areaOfAll(polyclip.difference(pair(outline), [...pair(shape.outline)])), letter).toBeLessThan(
          0.05,
        );
    }
    const tabs = made.bonds.filter(({ bond: { of } }) => of === 'tab').map(({ bond }) => bond.receiver);
    tabs.forEach((a, i) => {
      for (const b of tabs.slice(i + 1)) {
        if (a.net !== b.net || a.area !== b.area || a.face !== b.face) continue;
        const common = polyclip.intersection(pair(a.shapes[0].outline), pair(b.shapes[0].outline));
        expect(areaOfAll(common)).toBeLessThan(0.05);
      }
    });
  });
});

/** The way that the glued face of a spot looks, in space. A join tab lies in the frame of what it is glued to. */
function outward({ net, area, face }: Spot, { receiver }: Bond, poses: Float64Array): Vector3 {
  const own = net.areas[area];
  const panel = own.panel >= 0 ? own.panel : receiver.net.areas[receiver.area].panel;
  return new Vector3(0, 0, face).transformDirection(poseOf(poses, panel).multiply(toPanel(own)));
}

const near = (v: number) => Math.round(v * 1e4) / 1e4;
const pair = (ring: Ring): [number, number][][] => [ring.map(([x, y]) => [near(x), near(y)])];
const areaOfAll = (found: [number, number][][][]) =>
  found.reduce((sum, [outline]) => sum + Math.abs(areaOf(outline)), 0);

describe('tabs', () => {
  const fold = (glue: number): PlainPart => ({
    name: 'sail',
    kind: 'v-fold',
    at: 100,
    glue: [glue, glue],
    panels: [glue + 20, glue + 20],
    feet: [60, 60],
    ridge: 50,
  });

  it('is mitred at 45°: worked by hand for a glue line of 60 mm and a tab of 8 mm', () => {
    // A strut of 60 mm: its foot tab is the trapezium 60 long, 8 wide, 60 − 2·8 = 44 at its free edge.
    const assembly = assemble([
      {
        name: 'post',
        kind: 'strut',
        foot: {
          panel: 'left page',
          line: [
            [-100, 50],
            [-40, 50],
          ],
        },
        top: {
          panel: 'left page',
          line: [
            [-100, 80],
            [-40, 80],
          ],
        },
      },
    ]);
    const { pieces } = plan(assembly, { paper: 'A3' });
    const tab = pieces.flatMap(({ net }) => net.areas).find(({ name }) => name === 'post foot tab');
    const ring = tab?.shape.outline ?? [];
    const sides = ring.map(([x, y], i) => {
      const [nx, ny] = ring[(i + 1) % ring.length];
      return Math.hypot(nx - x, ny - y);
    });
    expect(sides.sort((a, b) => a - b).map((side) => side.toFixed(6))).toEqual(
      [8 * Math.SQRT2, 8 * Math.SQRT2, 44, 60].map((side) => side.toFixed(6)),
    );
    expect(areaOf(ring)).toBeCloseTo(((60 + 44) / 2) * 8, 6);
  });

  it('is drawn as it is cut back at the gutter, where it would reach over it', () => {
    // Glued at 30°, a mitre of 45° reaches over the gutter; what is left has no card beyond the page.
    const { warnings, bonds } = plan(assemble([fold(30)]), { paper: 'A3' });
    expect(warnings).toEqual([]);
    for (const { bond } of bonds) {
      const { net, area, shapes } = bond.receiver;
      expect(
        areaOfAll(polyclip.difference(pair(shapes[0].outline), pair(net.areas[area].shape.outline))),
      ).toBeLessThan(0.01);
      // By hand: the strip of 8 mm less the corner between mitre and a line beside the gutter. Along the glue line from the
      // apex, the mitre leaves at 45°, and that line, 2 mm from the gutter (at 30°), begins at 2/sin 30°.
      const whole = ((60 + 44) / 2) * 8;
      const [from, to] = [2 / Math.sin(Math.PI / 6), 2 / Math.sin(Math.PI / 6) + 8 / Math.tan(Math.PI / 6)];
      const corner = ((from + (to - 8)) / 2) * 8;
      expect(Math.abs(areaOf(bond.giver.shapes[0].outline))).toBeCloseTo(whole - corner, 2);
    }
  });

  it('that is a strip is pasted on the page from above, under its plank, and by one face', () => {
    // By hand: a plank stands on the page's printed face, and so does what holds it; behind the page there is nothing. The
    // strip's fold is its inner side: as with a stamp hinge, the paste is on the outer side of both its wings.
    const { bonds } = plan(figures['plank on strips'](), { paper: 'A2' });
    const onPage = bonds.find(({ bond: { of, receiver } }) => {
      const { net, area } = receiver;
      return of === 'join' && net.areas[area].name === 'left page';
    });
    expect(onPage?.bond.receiver.face).toBe(1);
    const wings = bonds.filter(({ bond }) => bond.giver.net === onPage?.bond.giver.net);
    expect(wings.map(({ bond }) => bond.of).sort()).toEqual(['join', 'tab']);
    expect(wings[0].bond.giver.face).toBe(wings[1].bond.giver.face);
    const [fold, ...more] = wings[0].bond.giver.net.folds;
    expect([fold.sense, more.length]).toEqual([wings[0].bond.giver.face < 0 ? 'valley' : 'mountain', 0]);
  });

  it('stays whole where there is room', () => {
    expect(plan(assemble([fold(60)]), { paper: 'A3' }).warnings).toEqual([]);
  });

  it('goes through a slit in the page and is glued behind, where asked', () => {
    const { bonds, pieces } = plan(assemble([fold(60)]), { paper: 'A3', tabsBehindPage: true });
    for (const { bond } of bonds) {
      expect(bond.receiver.face).toBe(-1);
      expect(bond.slit).not.toBeNull();
    }
    const page = pieces.find(({ net }) => net.piece === 'page');
    expect(page?.lines.slits).toHaveLength(2);
    // Slits keep 4 mm, less the half millimetre of room, from gutter and edges.
    for (const slit of page?.lines.slits ?? [])
      for (const [x] of slit) expect(Math.abs(x)).toBeGreaterThan(3);
  });
});
