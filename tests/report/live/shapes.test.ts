import fc from 'fast-check';
import { OrthographicCamera, Vector3 } from 'three';
import { describe, expect, test } from 'vitest';
import { compileFigure } from '../../../src/figure/figure.js';
import { readFigure } from '../../../src/figure/read.js';
import { cardArea } from '../../../src/geometry/polygon.js';
import { Motion } from '../../../src/view/motion.js';
import { pictureOf } from '../../../src/view/picture.js';
import { slabOf } from '../../../src/view/slab.js';
import { OARSMAN } from './study.js';

/** A star-shaped outline around the origin, either way round, with a square hole or none. */
const shapes = fc
  .record({
    radii: fc.array(fc.double({ min: 10, max: 40, noNaN: true }), { minLength: 3, maxLength: 12 }),
    clockwise: fc.boolean(),
    hole: fc.constantFrom(null, false, true),
  })
  .map(({ radii, clockwise, hole }) => {
    const corners = radii.map((r, i) => {
      const angle = (2 * Math.PI * i) / radii.length;
      return [r * Math.cos(angle), r * Math.sin(angle)];
    });
    const square = [
      [-2, -2],
      [2, -2],
      [2, 2],
      [-2, 2],
    ];
    const ring = (list: number[][], turned: boolean) =>
      Float64Array.from((turned ? list.reverse() : list).flat());
    return { outline: ring(corners, clockwise), holes: hole === null ? [] : [ring(square, hole)] };
  });

describe('a slab', () => {
  test('has the volume of its card, by the divergence theorem: the sum of a · (b × c) / 6 over its triangles', () => {
    fc.assert(
      fc.property(shapes, fc.double({ min: 0.1, max: 2, noNaN: true }), (shape, thickness) => {
        const { positions, indices } = slabOf(shape, -0.2, thickness - 0.2);
        let volume = 0;
        for (let i = 0; i < indices.length; i += 3) {
          const [a, b, c] = [0, 1, 2].map((k) => new Vector3().fromArray(positions, 3 * indices[i + k]));
          volume += a.dot(b.cross(c)) / 6;
        }
        expect(volume).toBeCloseTo(cardArea(shape) * thickness, 1);
      }),
    );
  });

  test('is closed: each edge of a triangle is that of just one other, the other way', () => {
    fc.assert(
      fc.property(shapes, (shape) => {
        const { positions, indices } = slabOf(shape, 0, 1);
        const corner = (i: number) => [...positions.subarray(3 * indices[i], 3 * indices[i] + 3)].join(' ');
        const edges = new Map<string, number>();
        for (let i = 0; i < indices.length; i += 3)
          for (let k = 0; k < 3; k++) {
            const edge = `${corner(i + k)} > ${corner(i + ((k + 1) % 3))}`;
            edges.set(edge, (edges.get(edge) ?? 0) + 1);
          }
        const back = (edge: string) => edges.get(edge.split(' > ').reverse().join(' > '));
        expect([...edges].filter(([edge, count]) => count !== 1 || back(edge) !== 1)).toEqual([]);
      }),
    );
  });

  test('has normals that point the way its triangles turn', () => {
    fc.assert(
      fc.property(shapes, (shape) => {
        const { positions, normals, indices } = slabOf(shape, 0, 1);
        let least = Number.POSITIVE_INFINITY;
        for (let i = 0; i < indices.length; i += 3) {
          const [a, b, c] = [0, 1, 2].map((k) => new Vector3().fromArray(positions, 3 * indices[i + k]));
          const normal = new Vector3().fromArray(normals, 3 * indices[i]);
          least = Math.min(least, b.sub(a).cross(c.sub(a)).dot(normal));
        }
        expect(least).toBeGreaterThan(0);
      }),
    );
  });
});

describe('a picture', () => {
  const figure = compileFigure(readFigure(OARSMAN));
  const motion = new Motion(figure, figure.start);

  test('shows corners where a camera of three puts them', () => {
    const [turn, lift] = [-28, 26];
    const poses = motion.at(120);
    const { panels } = pictureOf(motion.assembly, poses, { turn, lift });
    const camera = new OrthographicCamera();
    camera.up.set(0, 0, 1);
    const [t, l] = [(turn * Math.PI) / 180, (lift * Math.PI) / 180];
    camera.position.set(Math.sin(t) * Math.cos(l), -Math.cos(t) * Math.cos(l), Math.sin(l));
    camera.lookAt(0, 0, 0);
    camera.updateMatrixWorld();
    const view = camera.matrixWorld.clone().invert();
    for (const { panel, d } of panels) {
      const [x, y] = d.slice(1).split('L')[0].split(' ').map(Number);
      const { outline } = motion.assembly.panels[panel];
      const [r1, r2, , tx, r4, r5, , ty, r7, r8, , tz] = poses.subarray(12 * panel, 12 * panel + 12);
      const at = new Vector3(
        r1 * outline[0] + r2 * outline[1] + tx,
        r4 * outline[0] + r5 * outline[1] + ty,
        r7 * outline[0] + r8 * outline[1] + tz,
      ).applyMatrix4(view);
      expect(Math.abs(at.x - x)).toBeLessThan(0.051);
      expect(Math.abs(-at.y - y)).toBeLessThan(0.051);
    }
  });

  test('is drawn from far to near, the pages first', () => {
    const { panels } = pictureOf(motion.assembly, motion.at(120));
    expect(panels.slice(0, 2).map(({ panel }) => panel)).toEqual([0, 1]);
    expect(panels).toHaveLength(motion.assembly.panels.length);
  });
});
