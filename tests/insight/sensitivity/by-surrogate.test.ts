import { expect, test } from 'vitest';
import { surrogateIndices } from '../../../src/insight/sensitivity/by-surrogate.js';
import { stream } from '../../../src/search/random.js';

test.each([3, 40, 150])(
  'with %i dims a surrogate is asked for no more rows than memory holds, and for no fewer than will do',
  async (dims) => {
    let asked = 0;
    const learnt = {
      heldOut: [{ explained: 1, atLeast: 1, rms: 0, rows: 100 }],
      expect: (units: readonly Float64Array[]) => {
        asked += units.length;
        return units.map((unit) => Float64Array.of(unit[0]));
      },
    };
    const random = stream(1, 'points');
    const fill = (_: number, out: Float64Array) => {
      for (let i = 0; i < out.length; i++) out[i] = random.next();
    };
    const results = await surrogateIndices(learnt, [0], dims, fill, stream(1, 'bootstrap'));
    expect(asked).toBeLessThanOrEqual(50_000);
    // All the score does is the first dim's doing.
    expect(results[0][0].index?.total).toBeCloseTo(1, 1);
    expect(results[1][0].index?.total).toBeCloseTo(0, 6);
  },
);
