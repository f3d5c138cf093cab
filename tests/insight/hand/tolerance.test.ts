import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { failureCauses } from '../../../src/insight/hand/failure-causes.js';
import { cuttingTolerance } from '../../../src/insight/hand/tolerance.js';
import { wilson } from '../../../src/insight/sensitivity/wilson.js';
import { stream } from '../../../src/search/random.js';
import { verdictsOf } from '../sensitivity/functions.js';

const cuts = [
  { name: 'mast', sigma: 0.3 },
  { name: 'sail', sigma: 0.5 },
  { name: 'printed line', sigma: 0 },
];

describe('cuttingTolerance', () => {
  test('counts what works and what failed first', async () => {
    const verdicts = verdictsOf(([a, b]) => (a > 0.6 ? 'locks' : b > 0.5 ? 'catches' : null));
    const result = await cuttingTolerance(cuts, 2000, stream(1, 'cuts'), verdicts);
    expect(result.asDrawn).toBeNull();
    expect(result.failures.map((failure) => failure.failure)).toEqual(['catches', 'locks']);
    const failed = result.failures.reduce((sum, failure) => sum + failure.count, 0);
    expect(result.works.count + failed).toBe(2000);
    expect(result.dummies.filter((dummy) => dummy.failure === 'locks')).toHaveLength(
      result.failures[1].count,
    );
    expect(verdicts.rounds).toBe(1);
  });

  test('errors have the standard deviations asked for; what is exact stays exact', async () => {
    const rows: Float64Array[] = [];
    const verdicts = verdictsOf((row) => {
      rows.push(row);
      return null;
    });
    await cuttingTolerance(cuts, 4000, stream(2, 'cuts'), verdicts);
    const [asDrawn, ...cut] = rows;
    expect([...asDrawn]).toEqual([0, 0, 0]);
    const spread = (k: number) => Math.sqrt(cut.reduce((sum, row) => sum + row[k] ** 2, 0) / cut.length);
    expect(Math.abs(spread(0) - 0.3)).toBeLessThan(0.015);
    expect(Math.abs(spread(1) - 0.5)).toBeLessThan(0.025);
    expect(spread(2)).toBe(0);
  });

  test('a figure that fails as drawn says so', async () => {
    const result = await cuttingTolerance(
      cuts,
      10,
      stream(3, 'cuts'),
      verdictsOf(() => 'binds'),
    );
    expect(result.asDrawn).toBe('binds');
    expect(result.works).toMatchObject({ count: 0, of: 10, low: 0 });
  });
});

describe('failureCauses', () => {
  const causesOf = async (f: (row: Float64Array) => string | null, seed = 1) => {
    const verdicts = verdictsOf(f);
    const { dummies } = await cuttingTolerance(cuts, 1000, stream(seed, 'cuts'), verdicts);
    return failureCauses(cuts, dummies, verdicts, 2, 100);
  };

  test('finds an error that fails by its size in either direction', async () => {
    const { causes } = await causesOf(([, b]) => (Math.abs(b) > 0.8 ? 'catches' : null));
    expect(causes.map((cause) => cause.name)).toEqual(['sail', 'mast']);
    expect(causes[0].cured?.share).toBe(1);
    expect(causes[0].chance).toBeLessThan(1e-9);
    expect(causes[1].cured?.share).toBe(0);
  });

  test('two errors that fail only together each cure every failure', async () => {
    const { causes } = await causesOf(([a, b]) => (a > 0.2 && b > 0.3 ? 'catches' : null));
    expect(causes.map((cause) => cause.cured?.share)).toEqual([1, 1]);
  });

  test('an error that cannot matter looks guilty by chance as often as said', async () => {
    let suspected = 0;
    let explained = 0;
    const repeats = 400;
    for (let seed = 0; seed < repeats; seed++) {
      const verdicts = verdictsOf(([, b]) => (b > 0.4 ? 'catches' : null));
      const { dummies } = await cuttingTolerance(cuts, 300, stream(seed, 'cuts'), verdicts);
      const { causes } = await failureCauses(cuts, dummies, verdicts, 0, 0);
      const innocent = causes.find((cause) => cause.name === 'mast');
      if ((innocent?.chance ?? 1) < 0.1) suspected++;
      explained += innocent?.explains ?? 1;
    }
    // Binomial(400, 0.1): 40 ± 6.
    expect(suspected).toBeGreaterThan(20);
    expect(suspected).toBeLessThan(60);
    // p(1 − p)(1/n + 1/m) is 1/300, and the mean of max(0, χ² − 2) with 2 degrees of freedom is 2/e.
    expect(explained / repeats).toBeGreaterThan(0.5 / 300);
    expect(explained / repeats).toBeLessThan(1 / 300);
  });

  test('what is exact is no cause; what is not put to the proof says so', async () => {
    const verdicts = verdictsOf(([, b]) => (b > 0.4 ? 'catches' : null));
    const { dummies } = await cuttingTolerance(cuts, 300, stream(1, 'cuts'), verdicts);
    const { causes } = await failureCauses(cuts, dummies, verdicts, 1, 20);
    expect(causes.map((cause) => cause.name)).toEqual(['sail', 'mast']);
    expect(causes[1]).toMatchObject({ cured: null, reason: 'not among the errors cut again' });
    expect(causes[0].cured?.of).toBe(20);
  });

  test('nothing failed, everything failed', async () => {
    expect(await causesOf(() => null)).toEqual({ causes: [], reason: 'no dummy failed' });
    const { causes } = await causesOf(() => 'binds');
    expect(causes.map(({ explains, chance, cured }) => [explains, chance, cured?.share])).toEqual([
      [0, 1, 0],
      [0, 1, 0],
    ]);
  });
});

describe('wilson', () => {
  test('holds its share, stays within 0 and 1, narrows with more trials', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5000 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (of, part) => {
          const count = Math.round(part * of);
          const { share, low, high } = wilson(count, of);
          expect(low).toBeGreaterThanOrEqual(0);
          expect(high).toBeLessThanOrEqual(1);
          expect(low).toBeLessThanOrEqual(share);
          expect(high).toBeGreaterThanOrEqual(share);
          const more = wilson(4 * count, 4 * of);
          expect(more.high - more.low).toBeLessThan(high - low);
        },
      ),
      { seed: 1 },
    );
  });

  test('no trials have no share', () => {
    expect(() => wilson(0, 0)).toThrow('no share can be told from 0 of 0');
    expect(() => wilson(3, 2)).toThrow(RangeError);
  });
});
