import { beforeAll, describe, expect, it, vi } from 'vitest';
import type { Candidate } from '../../src/search/archive.js';
import { stream } from '../../src/search/random.js';
import { Sobol } from '../../src/search/sobol.js';
import { Surrogate } from '../../src/search/surrogate.js';
import { type TensorBackend, tensorBackend } from '../../src/search/tensor-backend.js';
import { Space } from '../../src/search/variables.js';
import { real } from '../support/search-problems.js';

const space = new Space([
  real('x', 0, 10),
  real('y', -1, 1),
  real('s', 0, 5, 1),
  { name: 'c', kind: 'choice', options: 3 },
]);

/** Smooth in the real dims, another level for each option, a limit at x + s = 10; one objective is lost where it breaks. */
function candidate(unit: Float64Array): Candidate {
  const [x, y, s, c] = space.toValues(unit);
  const over = Math.max(0, x + s - 10);
  return {
    unit,
    scored: {
      objectives: Float64Array.of(
        500 + 20 * x + 30 * Math.sin(3 * y) + [0, 80, -60][c],
        over > 0 ? NaN : x * y,
      ),
      violation: over,
      failures: Float64Array.of(over > 0 ? 1 : 0, y > 0.8 ? 1 : 0),
    },
  };
}

// Training takes seconds where the machine is busy.
vi.setConfig({ testTimeout: 60_000 });

let backend: TensorBackend;
beforeAll(async () => {
  backend = await tensorBackend();
});

const sobol = new Sobol(4, 1);
const candidates = Array.from({ length: 1000 }, (_, i) => candidate(space.snap(sobol.point(i))));

function fresh(seed = 1): Surrogate {
  const surrogate = new Surrogate(backend, space, 2, 2, seed);
  for (const one of candidates) surrogate.add(one);
  return surrogate;
}

describe('the surrogate', () => {
  it('learns a smooth function, a choice, a step and a limit, and tells so on what it never saw', async () => {
    const surrogate = fresh();
    const before = surrogate.check();
    await surrogate.train('once', 250);
    const after = surrogate.check();
    // About one in ten is kept back.
    expect(after.rows).toBeGreaterThan(70);
    expect(after.rows).toBeLessThan(130);
    expect(after.objectives[0]).toBeGreaterThan(0.95);
    expect(after.objectives[1]).toBeGreaterThan(0.85);
    // Soundness, then the two kinds of failure.
    for (const share of after.ordered) expect(share).toBeGreaterThan(0.97);
    for (const loss of after.logLoss) expect(loss).toBeLessThan(0.25);
    // Untrained, it knew nothing.
    expect(before.objectives[0]).toBeLessThan(0.3);
  });

  it('expects in the units of the objectives, with odds that are odds', async () => {
    const surrogate = fresh();
    await surrogate.train('once', 250);
    const at = (...values: number[]) => space.toUnit(values);
    const { objectives, spread, violation, sound } = surrogate.expect([
      at(5, 0, 1, 0),
      at(5, 0, 1, 1),
      at(9.5, 0, 5, 0),
    ]);
    expect(Math.abs(objectives[0][0] - 600)).toBeLessThan(30);
    expect(Math.abs(objectives[1][0] - 680)).toBeLessThan(30);
    expect(sound[0]).toBeGreaterThan(0.8);
    expect(sound[2]).toBeLessThan(0.2);
    expect(violation[2]).toBeGreaterThan(1.5);
    expect(violation[0]).toBeLessThan(0.5);
    for (const row of spread) for (const value of row) expect(value).toBeGreaterThanOrEqual(0);
  });

  it('its networks disagree more where nothing was learnt', async () => {
    const surrogate = new Surrogate(backend, space, 2, 2, 3);
    const random = stream(1, 'points');
    const points = Array.from({ length: 800 }, () =>
      space.snap(Float64Array.from({ length: 4 }, () => random.next())),
    );
    // Only the lower half of y is known.
    for (const point of points) if (point[1] < 0.5) surrogate.add(candidate(point));
    await surrogate.train('once', 200);
    const mean = (list: Float64Array[]) => list.reduce((sum, row) => sum + row[0], 0) / list.length;
    const known = mean(surrogate.expect(points.filter((p) => p[1] < 0.4)).spread);
    const unknown = mean(surrogate.expect(points.filter((p) => p[1] > 0.9)).spread);
    expect(unknown).toBeGreaterThan(2 * known);
  });

  it('gives the same bytes for the same seed, others for another', async () => {
    const expectations = async (seed: number) => {
      const surrogate = fresh(seed);
      await surrogate.train('a', 10);
      await surrogate.train('b', 3);
      return surrogate.expect(candidates.slice(0, 50).map((c) => c.unit));
    };
    const [one, again, other] = [await expectations(1), await expectations(1), await expectations(2)];
    expect(again).toEqual(one);
    expect(other).not.toEqual(one);
  });

  it('expects the same of a point, whatever else is in the batch', async () => {
    const surrogate = fresh();
    await surrogate.train('a', 10);
    const units = candidates.slice(0, 200).map((c) => c.unit);
    const all = surrogate.expect(units);
    const few = surrogate.expect(units.slice(100, 103));
    expect(few.objectives).toEqual(all.objectives.slice(100, 103));
  });

  it('goes on to the last bit after its state went through JSON', async () => {
    const surrogate = fresh();
    await surrogate.train('a', 5);
    const resumed = fresh();
    resumed.restore(JSON.parse(JSON.stringify(surrogate.save())));
    await surrogate.train('b', 5);
    await resumed.train('b', 5);
    expect(resumed.save()).toEqual(surrogate.save());
  });

  it('learns nothing from what is added while it trains', async () => {
    const [surrogate, other] = [fresh(), fresh()];
    const training = surrogate.train('a', 5);
    for (const one of candidates) surrogate.add(one);
    await training;
    await other.train('a', 5);
    expect(surrogate.save()).toEqual(other.save());
  });

  it('leaves no tensors behind', async () => {
    const { tf } = backend;
    const before = tf.memory().numTensors;
    const surrogate = fresh();
    for (let round = 0; round < 3; round++) {
      await surrogate.train(`round ${round}`, 4);
      surrogate.expect(candidates.map((c) => c.unit));
      surrogate.check();
      expect(tf.memory().numTensors).toBe(before);
    }
  });

  it('copes with nothing to learn, and with objectives that were never computed or never change', async () => {
    const surrogate = new Surrogate(backend, space, 2, 0, 1);
    await surrogate.train('none', 3);
    expect(surrogate.check()).toEqual({ rows: 0, objectives: [null, null], ordered: [], logLoss: [] });
    for (const { unit } of candidates.slice(0, 40)) {
      surrogate.add({ unit, scored: { objectives: Float64Array.of(NaN, 7), violation: Infinity } });
    }
    await surrogate.train('some', 20);
    const { objectives, violation, sound } = surrogate.expect([candidates[0].unit]);
    for (const value of [...objectives[0], violation[0], sound[0]]) expect(Number.isFinite(value)).toBe(true);
    expect(objectives[0][1]).toBeCloseTo(7, 0);
    expect(surrogate.check().objectives).toEqual([null, null]);
  });
});
