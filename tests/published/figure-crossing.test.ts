import { ShapeUtils, Vector2, Vector3 } from 'three';
import { ExtendedTriangle } from 'three-mesh-bvh';
import { expect, it } from 'vitest';
import type { Shape } from '../../src/geometry/polygon.js';
import { grown } from '../../src/geometry/region.js';
import { LEFT_PAGE, POSE, RIGHT_PAGE } from '../../src/motion/assembly.js';
import { ClashTest } from '../../src/score/clash/clash.js';
import { random, randomFigure } from '../score/random-figures.js';
import { open } from '../support/assemble.js';

// Against general-purpose libraries, over whole openings: panels shrunk on every side by Clipper, cut into triangles by
// three, and tried triangle against triangle by three-mesh-bvh. Where two panels still meet after each has lost 0.6 mm
// all round, each pokes through the other by 0.6 mm or more; and where their planes stand at 45° or more, the push is then
// at least 0.6 · sin 45° = 0.42 mm, which counts.
const SHRUNK = 0.6;
const STEEP = Math.SQRT1_2;

type Corner = readonly [number, number];

/** Triangles of a shrunken panel, each three corners in the panel's own plane. */
function trianglesOf({ outline, holes }: Shape): Corner[][] {
  const whole = { outline: cornersOf(outline), holes: holes.map(cornersOf) };
  return grown([whole], -SHRUNK).flatMap((shrunk) => {
    const rings = [shrunk.outline, ...shrunk.holes];
    const [first, ...rest] = rings.map((ring) => ring.map(([x, y]) => new Vector2(x, y)));
    const corners = rings.flat();
    return ShapeUtils.triangulateShape(first, rest).map((triangle) => triangle.map((i) => corners[i]));
  });
}

const cornersOf = (ring: Float64Array): Corner[] =>
  Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i], ring[2 * i + 1]]);

it('whole figures: what a library finds crossing after panels are shrunk, the clash test counts', () => {
  const rnd = random(4);
  let crossing = 0;
  for (let figure = 0; figure < 150; figure++) {
    const assembly = randomFigure(rnd);
    const { panels } = assembly;
    const opening = open(assembly);
    if (opening.count === 0) continue;
    const flat = panels.map(trianglesOf);
    let meets = '';
    for (let frame = 0; frame < opening.count && meets === ''; frame++) {
      const poses = opening.frame(frame);
      const inSpace = flat.map((triangles, k) =>
        triangles.map((corners) => {
          const at = ([x, y]: Corner) =>
            new Vector3(
              ...[0, 4, 8].map(
                (r) => poses[k * POSE + r] * x + poses[k * POSE + r + 1] * y + poses[k * POSE + r + 3],
              ),
            );
          return new ExtendedTriangle(at(corners[0]), at(corners[1]), at(corners[2]));
        }),
      );
      for (let a = 0; a < panels.length && meets === ''; a++)
        for (let b = a + 1; b < panels.length && meets === ''; b++) {
          if (panels[a].body === panels[b].body || (a === LEFT_PAGE && b === RIGHT_PAGE)) continue;
          const cosine = [2, 6, 10].reduce((sum, r) => sum + poses[a * POSE + r] * poses[b * POSE + r], 0);
          if (Math.sqrt(Math.max(0, 1 - cosine * cosine)) < STEEP) continue;
          if (inSpace[a].some((s) => inSpace[b].some((t) => s.intersectsTriangle(t))))
            meets = `${panels[a].name} and ${panels[b].name} at ${opening.pageAngles[frame]}°`;
        }
    }
    if (meets === '') continue;
    crossing++;
    expect(new ClashTest().run(assembly, opening, 0.3).worst, `figure ${figure}: ${meets}`).not.toBeNull();
  }
  expect(crossing).toBeGreaterThan(5);
});
