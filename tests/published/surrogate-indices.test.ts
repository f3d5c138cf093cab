import { beforeAll, expect, test } from 'vitest';
import {
  type GlobalSensitivity,
  scoresToLearn,
  withSurrogate,
} from '../../src/insight/sensitivity/figure-sensitivity.js';
import { globalRuns } from '../../src/insight/sensitivity/global-runs.js';
import { type ScoredPoint, ScoreSurrogate } from '../../src/insight/surrogate-scores.js';
import type { HeldOutError } from '../../src/search/held-out.js';
import { Sobol } from '../../src/search/sobol.js';
import { type TensorBackend, tensorBackend } from '../../src/search/tensor-backend.js';
import { Space } from '../../src/search/variables.js';
import { batchOf } from '../insight/sensitivity/functions.js';

/**
 * Sobol indices by way of a surrogate, where runs are too few for true ones, against closed forms: the functions of
 * ishigami.test.ts and g-function.test.ts, with their sources. How far the indices may be off is told by the held-out
 * error: see `surrogateIndices`.
 */

let backend: TensorBackend;
beforeAll(async () => {
  backend = await tensorBackend();
});

/** The way of a study that has scored `studied` plain samples, and may score `budget` more. */
async function bySurrogate(
  f: (u: Float64Array) => number,
  dims: number,
  studied: number,
  budget: number,
): Promise<{ global: GlobalSensitivity; error: HeldOutError | null }> {
  const variables = Array.from({ length: dims }, (_, k) => ({
    name: `x${k + 1}`,
    kind: 'real' as const,
    min: 0,
    max: 1,
  }));
  const space = new Space(variables);
  const sobol = new Sobol(dims, 11);
  const samples = Array.from({ length: studied }, (_, index): ScoredPoint => {
    const unit = space.snap(sobol.point(index));
    return { unit, scores: Float64Array.of(f(unit)), plain: true, group: index };
  });
  const runs = await globalRuns(
    batchOf((u) => [f(u)]),
    variables,
    1,
    budget,
    studied,
  );
  expect(runs.points.length).toBeLessThanOrEqual(budget);
  const points = [...samples, ...runs.points];
  const wanted = scoresToLearn(runs.indices, points);
  expect(wanted).toEqual([0]);
  const never = new AbortController().signal;
  const surrogate = await ScoreSurrogate.learn(backend, space, points, [], 1, never);
  return { global: await withSurrogate(runs, surrogate, wanted, 1), error: surrogate.heldOut[0] };
}

function close({ global, error }: Awaited<ReturnType<typeof bySurrogate>>, first: number[], total: number[]) {
  const unexplained = 1 - (error?.atLeast ?? 0);
  // Else the tolerance would pass anything.
  expect(unexplained).toBeLessThan(0.2);
  expect(global.from).toEqual(['surrogate']);
  expect(global.note).toContain('From a surrogate');
  global.indices.forEach(([{ index }], dim) => {
    if (index === null) throw new Error('no index');
    expect(Math.abs(index.first - first[dim])).toBeLessThan(unexplained);
    expect(Math.abs(index.total - total[dim])).toBeLessThan(unexplained);
    expect(index.firstLow).toBeLessThanOrEqual(first[dim]);
    expect(index.firstHigh).toBeGreaterThanOrEqual(first[dim]);
    expect(index.totalLow).toBeLessThanOrEqual(total[dim]);
    expect(index.totalHigh).toBeGreaterThanOrEqual(total[dim]);
  });
}

test('the Ishigami function, within the held-out error', async () => {
  const ishigami = (u: Float64Array) => {
    const [x1, x2, x3] = u.map((value) => Math.PI * (2 * value - 1));
    return Math.sin(x1) + 7 * Math.sin(x2) ** 2 + 0.1 * x3 ** 4 * Math.sin(x1);
  };
  close(await bySurrogate(ishigami, 3, 400, 300), [0.314, 0.442, 0], [0.558, 0.442, 0.244]);
});

test("Sobol's g-function, within the held-out error", async () => {
  const a = [0, 1, 4.5, 9, 99, 99];
  const parts = a.map((each) => 1 / (3 * (1 + each) ** 2));
  const product = parts.reduce((all, part) => all * (1 + part), 1);
  const first = parts.map((part) => part / (product - 1));
  const total = parts.map((part) => (part * product) / (1 + part) / (product - 1));
  const g = (u: Float64Array) =>
    u.reduce((all, value, i) => all * ((Math.abs(4 * value - 2) + a[i]) / (1 + a[i])), 1);
  close(await bySurrogate(g, 6, 400, 300), first, total);
});

test('where nothing can be learnt there are no indices, and it is said why', async () => {
  // A checkerboard of 16 fields a side in five dims: none of 500 dummies tells of its neighbour.
  const board = (u: Float64Array) => u.reduce((sum, value) => sum + Math.floor(16 * value), 0) % 2;
  const { global, error } = await bySurrogate(board, 5, 200, 300);
  expect(error?.explained).toBeLessThan(0.1);
  for (const [{ index, reason }] of global.indices) {
    expect(index).toBeNull();
    expect(reason).toMatch(
      /^too few runs for indices: a study of 807 dummies would be enough; a surrogate explains (nothing|\d %) of it on dummies that it had not learnt from: too little to say what drives it$/,
    );
  }
  expect(global.from).toEqual([null]);
});
