import { Plane, ShapeUtils, type Triangle, Vector2, Vector3 } from 'three';
import { ExtendedTriangle } from 'three-mesh-bvh';
import { expect, it } from 'vitest';
import type { Polygon } from '../../src/geometry/polygon.js';
import { grown } from '../../src/geometry/region.js';
import { LEFT_PAGE, RIGHT_PAGE } from '../../src/motion/assembly.js';
import { POSE } from '../../src/motion/pose.js';
import { ClashTest } from '../../src/score/clash/clash.js';
import { random, randomFigure } from '../score/random-figures.js';
import { open } from '../support/assemble.js';

// Against general-purpose libraries, over whole openings: panels cut into triangles by three, and tried triangle against
// triangle by three-mesh-bvh.

const PRESSING = 0.3;

// Panels shrunk on every side by Clipper: where two of them still meet after each has lost 0.6 mm all round, each pokes
// through the other by 0.6 mm or more; and where their planes stand at 45° or more, the push is then at least
// 0.6 · sin 45° = 0.42 mm, which counts.
const SHRUNK = 0.6;
const STEEP = Math.SQRT1_2;

type Corner = readonly [number, number];

/** Triangles of a panel, each three corners in the panel's own plane. */
function trianglesOf({ outline, holes }: Polygon, shrunk = 0): Corner[][] {
  const whole = { outline: cornersOf(outline), holes: holes.map(cornersOf) };
  return (shrunk === 0 ? [whole] : grown([whole], -shrunk)).flatMap((area) => {
    const rings = [area.outline, ...area.holes];
    const [first, ...rest] = rings.map((ring) => ring.map(([x, y]) => new Vector2(x, y)));
    const corners = rings.flat();
    return ShapeUtils.triangulateShape(first, rest).map((triangle) => triangle.map((i) => corners[i]));
  });
}

const cornersOf = (ring: Float64Array): Corner[] =>
  Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i], ring[2 * i + 1]]);

const inSpace = (poses: Float64Array, k: number, [x, y]: Corner): Vector3 =>
  new Vector3(
    ...[0, 4, 8].map((r) => poses[k * POSE + r] * x + poses[k * POSE + r + 1] * y + poses[k * POSE + r + 3]),
  );

const placed = (triangles: Corner[][], poses: Float64Array, k: number): ExtendedTriangle[] =>
  triangles.map(([a, b, c]) => new ExtendedTriangle(...[a, b, c].map((corner) => inSpace(poses, k, corner))));

const meet = (some: ExtendedTriangle[], others: ExtendedTriangle[]): boolean =>
  some.some((s) => others.some((t) => s.intersectsTriangle(t)));

it('whole figures: what a library finds crossing after panels are shrunk, the clash test counts', () => {
  const rnd = random(4);
  let crossing = 0;
  for (let figure = 0; figure < 150; figure++) {
    const assembly = randomFigure(rnd);
    const { panels } = assembly;
    const opening = open(assembly);
    if (opening.count === 0) continue;
    const flat = panels.map((panel) => trianglesOf(panel, SHRUNK));
    let meets = '';
    for (let frame = 0; frame < opening.count && meets === ''; frame++) {
      const poses = opening.frame(frame);
      const there: ExtendedTriangle[][] = [];
      const at = (k: number) => {
        there[k] ??= placed(flat[k], poses, k);
        return there[k];
      };
      for (let a = 0; a < panels.length && meets === ''; a++)
        for (let b = a + 1; b < panels.length && meets === ''; b++) {
          if (panels[a].body === panels[b].body || (a === LEFT_PAGE && b === RIGHT_PAGE)) continue;
          const cosine = [2, 6, 10].reduce((sum, r) => sum + poses[a * POSE + r] * poses[b * POSE + r], 0);
          if (Math.sqrt(Math.max(0, 1 - cosine * cosine)) < STEEP) continue;
          if (meet(at(a), at(b)))
            meets = `${panels[a].name} and ${panels[b].name} at ${opening.pageAngles[frame]}°`;
        }
    }
    if (meets === '') continue;
    crossing++;
    expect(
      new ClashTest().run(assembly, opening, PRESSING).worst,
      `figure ${figure}: ${meets}`,
    ).not.toBeNull();
  }
  expect(crossing).toBeGreaterThan(5);
});

it('whole figures: what the clash test counts, a library finds to meet, with card on both sides', () => {
  const rnd = random(5);
  let crossing = 0;
  for (let figure = 0; figure < 150; figure++) {
    const assembly = randomFigure(rnd);
    const opening = open(assembly);
    if (opening.count === 0) continue;
    for (const { between, pageAngle } of new ClashTest().catches(assembly, opening, PRESSING)) {
      const poses = opening.at(pageAngle);
      const [a, b] = between.map((k) => placed(trianglesOf(assembly.panels[k]), poses, k));
      const what = `figure ${figure}: ${between.map((k) => assembly.panels[k].name)} at ${pageAngle}°`;
      expect(meet(a, b), what).toBe(true);
      // Panels that share a crease or a corner meet there too: with all of the card on one side.
      expect(Math.min(poke(a, b), poke(b, a)), what).toBeGreaterThan(PRESSING);
      crossing++;
    }
  }
  expect(crossing).toBeGreaterThan(100);
});

/** How far the card of some triangles reaches on either side of the plane of others, mm: the lesser of the two. */
function poke(some: Triangle[], others: Triangle[]): number {
  const plane = others[0].getPlane(new Plane());
  const heights = some.flatMap(({ a, b, c }) => [a, b, c].map((p) => plane.distanceToPoint(p)));
  return Math.min(Math.max(...heights), -Math.min(...heights));
}
