import { describe, expect, it } from 'vitest';
import { assemble, axisOf, posesAt } from '../support/assemble.js';

// Kawasaki: the creases of a vertex fold flat only if every other sector angle sums to 180°. Maekawa: then mountains
// and valleys differ by two. (Kawasaki 1989, Maekawa; both in every textbook of flat folding. From memory.)
describe('a counter-fold cut from one sheet', () => {
  for (const diagonal of [15, 35, 60, 80]) {
    const assembly = assemble([
      { name: 'boat', kind: 'parallel-fold', at: 20, length: 120, glue: [30, 30], widths: [70, 70] },
      { name: 'oar', kind: 'counter-fold', on: 'boat ridge', at: 60, diagonal, side: 12, length: 14 },
    ]);
    const panels = ['boat left', 'oar left', 'oar right', 'boat right'];

    it(`has alternate sectors that sum to 180° (Kawasaki), diagonals at ${diagonal}°`, () => {
      // Sectors read off the unfolded outlines: each triangle's at the vertex, each parent's from the rest of the ridge.
      const triangle = (name: string) => {
        const o = assembly.panels[assembly.panelNamed(name, '')].outline;
        const at = [...o.keys()]
          .filter((i) => i % 2 === 0)
          .find((i) => Math.hypot(o[i], o[i + 1]) < 1e-9) as number;
        const n = o.length;
        const [a, b] = [(at + 2) % n, (at + n - 2) % n].map((i) => Math.atan2(o[i + 1], o[i]));
        return (Math.abs(a - b) * 180) / Math.PI;
      };
      const parent = (name: string) => {
        const panel = assembly.panels[assembly.panelNamed(name, '')];
        const joint = assembly.joints.find(
          (j) =>
            j.kind === 'crease' &&
            j.between.includes(assembly.panelNamed(name, '')) &&
            j.between.includes(assembly.panelNamed(name.replace('boat', 'oar'), '')),
        );
        if (joint?.kind !== 'crease') throw new Error('no diagonal');
        const line = joint.lines[joint.between.indexOf(assembly.panelNamed(panel.name, '')) as 0 | 1];
        // The ridge runs along x; the rest of it lies towards −x from the vertex.
        return 180 - (Math.abs(Math.atan2(line.y1 - line.y0, line.x1 - line.x0)) * 180) / Math.PI;
      };
      const sectors = [
        parent('boat left'),
        triangle('oar left'),
        triangle('oar right'),
        parent('boat right'),
      ];
      expect(sectors[0] + sectors[2]).toBeCloseTo(180, 6);
      expect(sectors[1] + sectors[3]).toBeCloseTo(180, 6);
      expect(sectors.reduce((sum, s) => sum + s)).toBeCloseTo(360, 6);
    });

    it(`has three creases folded one way and one the other (Maekawa), diagonals at ${diagonal}°`, () => {
      const poses = posesAt(assembly, 60);
      // Creases round the vertex, in order: ridge, left diagonal, moving crease, right diagonal; all faces alike.
      const lines = {
        ridge: axisOf(assembly, poses, 'boat left', 0).map((v) => -v),
        left: axisOf(assembly, poses, 'oar left', 0),
        moving: axisOf(assembly, poses, 'oar left', 0).map(
          (v, i) =>
            v * Math.cos((diagonal * Math.PI) / 180) +
            axisOf(assembly, poses, 'oar left', 1)[i] * Math.sin((diagonal * Math.PI) / 180),
        ),
        right: axisOf(assembly, poses, 'oar right', 0),
      };
      const normals = panels.map((name) => axisOf(assembly, poses, name, 2));
      const sign = (a: number[], b: number[], e: number[]) =>
        Math.sign(
          (a[1] * b[2] - a[2] * b[1]) * e[0] +
            (a[2] * b[0] - a[0] * b[2]) * e[1] +
            (a[0] * b[1] - a[1] * b[0]) * e[2],
        );
      const [boatLeft, oarLeft, oarRight, boatRight] = normals;
      const folds = [
        sign(boatRight, boatLeft, lines.ridge),
        sign(boatLeft, oarLeft, lines.left),
        sign(oarLeft, oarRight, lines.moving),
        sign(oarRight, boatRight, lines.right),
      ];
      expect(Math.abs(folds.reduce((sum, s) => sum + s))).toBe(2);
    });
  }
});
