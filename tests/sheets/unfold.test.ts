import * as polyclip from 'polyclip-ts';
import { Matrix4, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import type { Point, Ring } from '../../src/geometry/plane.js';
import { cutLinesOf } from '../../src/sheets/nets/cut-lines.js';
import { framesOf } from '../../src/sheets/nets/fold-sense.js';
import { posesAt } from '../support/assemble.js';
import { figures, plan } from './figures.js';
import { poseOf, toPanel } from './in-space.js';

/** Lengths of a ring's edges and the turns at its corners, as plain school geometry gives them. */
function measures(ring: Ring): number[] {
  return ring.flatMap(([x, y], i) => {
    const [px, py] = ring[(i + ring.length - 1) % ring.length];
    const [nx, ny] = ring[(i + 1) % ring.length];
    const [ax, ay, bx, by] = [x - px, y - py, nx - x, ny - y];
    const cos = (ax * bx + ay * by) / (Math.hypot(ax, ay) * Math.hypot(bx, by));
    return [Math.hypot(bx, by), Math.acos(Math.min(1, Math.max(-1, cos))) * 30];
  });
}

/** The same corners from another start, or the other way round, are the same shape. */
function sameMeasures(a: Ring, b: Ring): number {
  if (a.length !== b.length) return Number.POSITIVE_INFINITY;
  const want = measures(a);
  let best = Number.POSITIVE_INFINITY;
  for (const ring of [b, [...b].reverse()])
    for (let start = 0; start < ring.length; start++) {
      const got = measures([...ring.slice(start), ...ring.slice(0, start)]);
      best = Math.min(best, Math.max(...want.map((v, i) => Math.abs(v - got[i]))));
    }
  return best;
}

const ringOf = (pairs: Float64Array): Point[] =>
  Array.from({ length: pairs.length / 2 }, (_, i) => [pairs[2 * i], pairs[2 * i + 1]]);

describe.each(Object.keys(figures))('%s, unfolded', (name) => {
  const assembly = figures[name]();
  const nets = plan(assembly, { paper: 'A2' }).pieces.map(({ net }) => net);

  it('keeps every edge and angle of every panel to 0.01 mm', () => {
    let seen = 0;
    for (const { areas } of nets)
      for (const { panel, kind, shape } of areas) {
        if (panel < 0 || kind !== 'panel') continue;
        const { outline, holes } = assembly.panels[panel];
        expect(sameMeasures(ringOf(outline), shape.outline), assembly.panels[panel].name).toBeLessThan(0.01);
        holes.forEach((hole, i) => {
          expect(sameMeasures(ringOf(hole), shape.holes[i])).toBeLessThan(0.01);
        });
        seen++;
      }
    expect(seen).toBe(assembly.panels.filter(({ role }) => role === 'card').length);
  });

  it('gives both panels of a crease an edge of the same length', () => {
    for (const net of nets)
      for (const { joint, line } of net.folds) {
        const made = assembly.joints[joint];
        if (made?.kind !== 'crease') continue;
        const long = Math.hypot(line[1][0] - line[0][0], line[1][1] - line[0][1]);
        for (const own of made.lines)
          expect(Math.abs(Math.hypot(own.x1 - own.x0, own.y1 - own.y0) - long)).toBeLessThan(0.01);
      }
  });

  it('has no areas that overlap (polyclip-ts)', () => {
    for (const { areas } of nets) {
      // To a ten-thousandth of a millimetre: polyclip-ts gives up where edges coincide but for round-off.
      const near = (v: number) => Math.round(v * 1e4) / 1e4;
      const rings = areas.map(({ shape }) => [
        shape.outline.map(([x, y]): [number, number] => [near(x), near(y)]),
      ]);
      for (let a = 0; a < rings.length; a++)
        for (let b = a + 1; b < rings.length; b++) {
          const common = polyclip.intersection(rings[a], rings[b]);
          expect(areaOfAll(common), `${areas[a].name}, ${areas[b].name}`).toBeLessThan(0.05);
        }
    }
  });

  /**
   * Folds the flat net with three.js, crease by crease from its first panel, each by the angle between the printed faces
   * of the two panels in the model, and compares every corner with the model.
   */
  it.each([180, 90])('folded back by its creases, is the model at page angle %d', (pageAngle) => {
    const poses = posesAt(assembly, pageAngle);
    for (const net of nets) {
      const start = net.areas.findIndex(({ panel }) => panel >= 0);
      if (start < 0) continue;
      const folded = new Map([
        [start, poseOf(poses, net.areas[start].panel).multiply(toPanel(net.areas[start]))],
      ]);
      for (const [at, matrix] of folded)
        for (const { between, line, joint } of net.folds) {
          if (!between.includes(at)) continue;
          const next = between[0] === at ? between[1] : between[0];
          if (folded.has(next) || net.areas[next].panel < 0) continue;
          // A tongue has no crease in the model, and what misfits does not close: neither can be compared.
          const made = assembly.joints[joint];
          if (made.kind !== 'crease') continue;
          const target = poseOf(poses, net.areas[next].panel).multiply(toPanel(net.areas[next]));
          const [from, to] = line.map(([x, y]) => new Vector3(x, y, 0));
          const axis = to.clone().sub(from).normalize();
          const flatNormal = new Vector3(0, 0, 1);
          const bent = flatNormal.clone().transformDirection(matrix.clone().invert().multiply(target));
          const angle = Math.atan2(flatNormal.clone().cross(bent).dot(axis), flatNormal.dot(bent));
          const turn = new Matrix4()
            .makeTranslation(from)
            .multiply(new Matrix4().makeRotationAxis(axis, angle))
            .multiply(new Matrix4().makeTranslation(from.clone().negate()));
          const reached = matrix.clone().multiply(turn);
          if (!made.closesLoop || net.areas[next].kind === 'panel')
            for (const [x, y] of net.areas[next].shape.outline) {
              const got = new Vector3(x, y, 0).applyMatrix4(reached);
              const want = new Vector3(x, y, 0).applyMatrix4(target);
              expect(got.distanceTo(want), `${net.areas[next].name}`).toBeLessThan(0.01);
            }
          folded.set(next, reached);
        }
    }
  });

  it('marks a crease valley where its faces come together, mountain where they part', () => {
    const frames = framesOf(assembly);
    for (const net of nets)
      for (const { between, line, sense, joint } of net.folds) {
        const [a, b] = between.map((i) => net.areas[i]);
        if (a.panel < 0 || b.panel < 0 || assembly.joints[joint].kind !== 'crease') continue;
        // How high a point of b just beyond the crease lies above a's printed face, over the whole opening.
        const middle = [(line[0][0] + line[1][0]) / 2, (line[0][1] + line[1][1]) / 2];
        const inB = centroid(b.shape.outline);
        const [dx, dy] = [inB[0] - middle[0], inB[1] - middle[1]];
        const beyond = new Vector3(middle[0] + 0.2 * dx, middle[1] + 0.2 * dy, 0);
        const heights = frames.poses.map((poses) => {
          const world = beyond.clone().applyMatrix4(poseOf(poses, b.panel).multiply(toPanel(b)));
          return world.applyMatrix4(poseOf(poses, a.panel).multiply(toPanel(a)).invert()).z;
        });
        const [low, high] = [Math.min(...heights), Math.max(...heights)];
        if (sense === 'valley') expect(low, `${a.name}, ${b.name}`).toBeGreaterThan(-0.2);
        if (sense === 'mountain') expect(high, `${a.name}, ${b.name}`).toBeLessThan(0.2);
        if (sense === 'flat') expect(Math.max(high, -low)).toBeLessThan(0.5);
        if (sense === 'both ways') expect(high * low).toBeLessThan(0);
      }
  });

  it('has closed contours, every line once', () => {
    for (const net of nets) {
      const { contours, holes, slits, creases } = cutLinesOf(net);
      expect(contours, net.name).toHaveLength(1);
      const segments = [
        ...[...contours, ...holes].flatMap((ring) =>
          ring.map((p, i) => [p, ring[(i + 1) % ring.length]] as const),
        ),
        ...slits,
        ...creases.map(({ segment }) => segment),
      ];
      let most = 0;
      segments.forEach(([a, b], i) => {
        for (const [p, q] of segments.slice(i + 1)) most = Math.max(most, shared(a, b, p, q));
      });
      expect(most, net.name).toBeLessThan(0.01);
      // All card, and only card, lies within the cuts.
      const card = areaOfRings([...contours, ...holes]);
      const own = net.areas.reduce((sum, { shape }) => sum + areaOfRings([shape.outline, ...shape.holes]), 0);
      expect(Math.abs(card - own)).toBeLessThan(0.1);
    }
  });
});

const centroid = (ring: Ring): [number, number] => [
  ring.reduce((sum, [x]) => sum + x / ring.length, 0),
  ring.reduce((sum, [, y]) => sum + y / ring.length, 0),
];

/** Length that two segments have in common. */
function shared(a: Point, b: Point, p: Point, q: Point): number {
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [ex, ey] = [(b[0] - a[0]) / long, (b[1] - a[1]) / long];
  const off = ([x, y]: Point) => Math.abs((x - a[0]) * ey - (y - a[1]) * ex);
  if (off(p) > 0.01 || off(q) > 0.01) return 0;
  const along = ([x, y]: Point) => (x - a[0]) * ex + (y - a[1]) * ey;
  return Math.min(long, Math.max(along(p), along(q))) - Math.max(0, Math.min(along(p), along(q)));
}

/** Shoelace formula over outlines (positive) and holes (negative). */
function areaOfRings(rings: readonly Ring[]): number {
  return rings.reduce(
    (sum, ring) =>
      sum +
      ring.reduce(
        (own, [x, y], i) =>
          own + (x * ring[(i + 1) % ring.length][1] - ring[(i + 1) % ring.length][0] * y) / 2,
        0,
      ),
    0,
  );
}

const areaOfAll = (found: [number, number][][][]): number =>
  found.reduce((sum, [outline]) => sum + Math.abs(areaOfRings([outline.slice(0, -1)])), 0);
