import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { readFigure } from '../../src/figure/read.js';
import { cardIn, distanceTo, edgesOf } from '../../src/geometry/plane.js';
import { less, overlapOf, totalArea } from '../../src/geometry/region.js';
import { CannotBuild } from '../../src/motion/cannot-build.js';
import { plan } from './figures.js';

/** Any candidate of an example can be cut, whether it works or not. */
describe.each(['ferryman', 'heron', 'tightrope'])('any candidate of %s', (name) => {
  const figure = compileFigure(readFigure(`examples/${name}.yaml`));
  const dims = fc.tuple(
    ...figure.free.map((dim) =>
      dim.kind === 'real'
        ? fc.double({ min: dim.min, max: dim.max, noNaN: true })
        : fc.nat(dim.options.length - 1).map(Number),
    ),
  );

  it('has whole pieces, every letter twice, and nothing that is not a number', () => {
    fc.assert(
      fc.property(dims, (vector) => {
        const assembly = (() => {
          try {
            return figure.build(Float64Array.from(vector));
          } catch (error) {
            if (error instanceof CannotBuild) return null;
            throw error;
          }
        })();
        fc.pre(assembly !== null);
        const { pieces, bonds, warnings, sheets } = plan(assembly, { paper: 'A3' });
        // Told in so many words, and then true.
        fc.pre(!warnings.some((line) => line.includes('cannot be cut from one sheet')));
        expect(sheets.flatMap(({ placed }) => placed)).toHaveLength(pieces.length);
        for (const { net, lines } of pieces) {
          expect(lines.contours, net.name).toHaveLength(1);
          const numbers = [...lines.contours, ...lines.holes].flat(2);
          expect(numbers.every(Number.isFinite)).toBe(true);
          net.areas.forEach(({ shape }, i) => {
            expect(cardIn(shape)).toBeGreaterThan(0);
            for (const other of net.areas.slice(i + 1))
              expect(totalArea(overlapOf(shape, other.shape))).toBeLessThan(0.06);
          });
        }
        const marks = pieces.flatMap((piece) => piece.marks);
        for (const { spot, letter } of marks)
          for (const shape of spot.shapes) {
            const beyond = less(shape, spot.net.areas[spot.area].shape);
            expect(totalArea(beyond), `glue ${letter} beyond its piece`).toBeLessThan(0.1);
          }
        for (const { net } of pieces)
          for (const { shape, kind } of net.areas)
            if (kind === 'tab')
              shape.outline.forEach((corner, i) => {
                edgesOf(shape.outline).forEach((edge, j) => {
                  const own = j === i || (j + 1) % shape.outline.length === i;
                  if (!own) expect(distanceTo(edge, corner), `a tab of ${net.name}`).toBeGreaterThan(1e-3);
                });
              });
        for (const { letter } of bonds) {
          const own = marks.filter((mark) => mark.letter === letter);
          expect(own.map(({ receives }) => receives).sort()).toEqual([false, true]);
        }
        expect(warnings.join(' ')).not.toMatch(/NaN|undefined|Infinity|No order/);
      }),
      { numRuns: 6, seed: 8 },
    );
  });
});
