import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { TreePaths } from '../../src/sheets/nets/tree-paths.js';

/** Panels that hang on earlier ones, or on none (−1), in any order; each crease may name its two panels either way. */
const forest = fc
  .array(fc.tuple(fc.nat(), fc.integer({ min: 0, max: 6 }), fc.boolean()), { minLength: 1, maxLength: 30 })
  .map((rows) => {
    const on = rows.map(([number, loose], panel) => (panel === 0 || loose === 0 ? -1 : number % panel));
    const tree = on.flatMap((other, panel): { panels: [number, number] }[] =>
      other < 0 ? [] : [{ panels: rows[panel][2] ? [panel, other] : [other, panel] }],
    );
    return { on, tree: tree.reverse() };
  });

describe('the way from panel to panel across creases', () => {
  it('goes from crease to next crease, never twice over one, and is there where two panels hang together', () => {
    fc.assert(
      fc.property(forest, ({ on, tree }) => {
        const paths = new TreePaths(on.length, tree);
        const top = (panel: number): number => (on[panel] < 0 ? panel : top(on[panel]));
        for (let a = 0; a < on.length; a++)
          for (let b = 0; b < on.length; b++) {
            const together = top(a) === top(b);
            const way = paths.between(a, b);
            let at = b;
            const hangs = way.every(({ panels }) => {
              const isNext = panels.includes(at);
              at = panels[0] === at ? panels[1] : panels[0];
              return isNext;
            });
            const found = {
              join: paths.join(a, b),
              once: new Set(way).size === way.length,
              hangs,
              ends: together ? at === a : way.length === 0,
            };
            // `expect` takes longer than all that it is told of.
            if (found.join !== together || !found.once || !found.hangs || !found.ends)
              expect(found, `${a} to ${b}`).toEqual({ join: together, once: true, hangs: true, ends: true });
          }
      }),
      { seed: 4, numRuns: 200 },
    );
  });
});
