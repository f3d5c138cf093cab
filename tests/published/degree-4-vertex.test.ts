import { describe, expect, it } from 'vitest';
import { assemble, axisOf, posesAt } from '../support/assemble.js';

const RADIANS = Math.PI / 180;

/** Fold angle of a crease whose panels lie from it in the unit directions a and b: 0 flat, π face on face. */
const foldAngle = (a: number[], b: number[]) => Math.PI - Math.acos(a[0] * b[0] + a[1] * b[1] + a[2] * b[2]);

/** v less what of it lies along the unit direction e, made unit: where a panel holding v lies from a crease along e. */
function squareTo(v: number[], e: number[]): number[] {
  const along = v[0] * e[0] + v[1] * e[1] + v[2] * e[2];
  const rest = v.map((x, i) => x - along * e[i]);
  return rest.map((x) => x / Math.hypot(...rest));
}

/**
 * A V-fold glued at g₁, g₂ and folded at p₁, p₂ is, with its pages, a vertex of four sectors g₁, g₂, p₂, p₁ between
 * four creases: gutter e, right foot R, ridge c, left foot L. Here are its four fold angles, from those directions.
 */
function foldAngles(glue: [number, number], panels: [number, number], pageAngle: number) {
  const assembly = assemble([
    { name: 'fold', kind: 'v-fold', at: 60, glue, panels, feet: [60, 60], ridge: 60 },
  ]);
  const poses = posesAt(assembly, pageAngle);
  const e = [0, 1, 0];
  const L = axisOf(assembly, poses, 'fold left', 0);
  const R = axisOf(assembly, poses, 'fold right', 0);
  const up = axisOf(assembly, poses, 'fold left', 1);
  const p = panels[0] * RADIANS;
  const c = L.map((v, i) => Math.cos(p) * v + Math.sin(p) * up[i]);
  return {
    gutter: foldAngle(squareTo(L, e), squareTo(R, e)),
    rightFoot: foldAngle(squareTo(e, R), squareTo(c, R)),
    ridge: foldAngle(squareTo(L, c), squareTo(R, c)),
    leftFoot: foldAngle(squareTo(e, L), squareTo(c, L)),
  };
}

// A flat-foldable degree-4 vertex folds with opposite fold angles equal in magnitude, and the tangents of half the
// neighbouring ones in a constant ratio: the classic relations (Huffman 1976; He, Hayakawa, Ohsaki, arXiv 2308.03765
// give them for the general vertex). The ratio for sectors α, β is cos((α+β)/2) / cos((α−β)/2), or with sines for the
// other way of folding. From memory.
describe('a flat-foldable vertex (opposite sectors sum to 180°)', () => {
  it('folds with opposite fold angles equal and a constant ratio of half-angle tangents', () => {
    // A twist on flat paper: sectors 70, 50, 110, 130 round the vertex; the V-fold's panels are p₁ = 180 − g₂.
    const glue: [number, number] = [70, 50];
    const panels: [number, number] = [130, 110];
    const ratios: number[] = [];
    for (const pageAngle of [150, 120, 90, 60, 30]) {
      const fold = foldAngles(glue, panels, pageAngle);
      expect(Math.abs(fold.ridge)).toBeCloseTo(Math.abs(fold.gutter), 6);
      expect(Math.abs(fold.leftFoot)).toBeCloseTo(Math.abs(fold.rightFoot), 6);
      ratios.push(Math.abs(Math.tan(fold.leftFoot / 2) / Math.tan(fold.gutter / 2)));
    }
    for (const ratio of ratios) expect(ratio).toBeCloseTo(ratios[0], 6);
    const withCosines = Math.cos(60 * RADIANS) / Math.cos(10 * RADIANS);
    const withSines = Math.sin(10 * RADIANS) / Math.sin(60 * RADIANS);
    const near = [withCosines, 1 / withCosines, withSines, 1 / withSines];
    expect(Math.min(...near.map((r) => Math.abs(r - ratios[0])))).toBeLessThan(1e-6);
  });
});

// The general vertex obeys the spherical law of cosines in the two triangles into which the diagonal between gutter
// and ridge, or between the feet, cuts the four sectors (any textbook of spherical trigonometry; He, Hayakawa, Ohsaki,
// arXiv 2308.03765 start from the same).
describe('a general vertex', () => {
  it('has one diagonal for both of its spherical triangles, at every page angle', () => {
    for (const [glue, panels] of [
      [
        [70, 50],
        [65, 85],
      ],
      [
        [40, 60],
        [80, 60],
      ],
      [
        [85, 35],
        [60, 80],
      ],
    ] as [[number, number], [number, number]][])
      for (const pageAngle of [170, 110, 60, 20]) {
        const fold = foldAngles(glue, panels, pageAngle);
        const [g1, g2, p1, p2] = [...glue, ...panels].map((v) => v * RADIANS);
        // ∠(L, R) across the gutter (its dihedral is π less the fold angle), and across the ridge.
        const across = (a: number, b: number, angle: number) =>
          Math.cos(a) * Math.cos(b) + Math.sin(a) * Math.sin(b) * Math.cos(Math.PI - angle);
        expect(across(p1, p2, fold.ridge)).toBeCloseTo(across(g1, g2, fold.gutter), 9);
        // ∠(gutter, ridge) across the left foot and across the right one.
        expect(across(g1, p1, fold.leftFoot)).toBeCloseTo(across(g2, p2, fold.rightFoot), 9);
      }
  });
});
