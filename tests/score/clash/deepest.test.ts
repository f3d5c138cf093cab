import { describe, expect, test } from 'vitest';
import { crossing, newCrossing } from '../../../src/geometry/crossing.js';
import { ClashTest } from '../../../src/score/clash/clash.js';
import { assemble, open } from '../../support/assemble.js';

const PRESS = 0.3;

describe('the deepest catch', () => {
  // A box and a layer that reach into one another twice: hard and shallow, and softly but far.
  const assembly = assemble([
    { name: 't0', kind: 'parallel-fold', shape: 'box', at: 6, length: 118, glue: [27, 20] },
    {
      name: 't1',
      kind: 'parallel-fold',
      shape: 'layer',
      at: 90,
      length: 56,
      glue: [22, 22],
      widths: [25, 25],
      layers: [20, 8],
    },
  ]);
  const opening = open(assembly);

  test('is the deepest of all that count, not the one that pushes hardest', () => {
    let deepest = 0;
    const found = newCrossing();
    for (let frame = 0; frame < opening.count; frame++)
      for (let a = 0; a < assembly.panels.length; a++)
        for (let b = a + 1; b < assembly.panels.length; b++) {
          const { panels } = assembly;
          if (panels[a].body === panels[b].body || panels[a].part === panels[b].part) continue;
          if (crossing(panels[a], panels[b], opening.frame(frame), a, b, found) && found.push > PRESS)
            deepest = Math.max(deepest, found.depth);
        }
    const { worst } = new ClashTest().run(assembly, opening, PRESS);
    expect(deepest).toBeGreaterThan(7);
    expect(worst?.depth).toBeGreaterThanOrEqual(deepest);
    expect(worst?.depth).toBeLessThan(deepest + 0.5);
  });
});
