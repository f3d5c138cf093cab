import { expect, test } from 'vitest';
import { globalRuns } from '../../src/insight/sensitivity/global-runs.js';
import { batchOf } from './sensitivity/functions.js';
import { tentTrials } from './support.js';

const RISE = 'wants:\n  - { name: rises, kind: rise, panel: tent left, from: 180, to: 178, least: 60 }\n';

test('a dim that cannot matter does not, and what hangs on one dim alone is all its doing', async () => {
  const dims =
    '{ wide: { from: 50, to: 90 }, feet: { from: 20, to: 40 }, idle: { from: 0, to: 9 }, way: { choose: [in, out] } }';
  const { scores, variables, names } = tentTrials(dims, '[feet, feet]', '[wide, wide]', RISE);
  const { indices, note } = await globalRuns(scores, variables, 1, 1000, 0);
  const of = (dim: number, score: string) => indices[dim][names.indexOf(score)];
  expect(note).toContain('dummies scored for this');
  for (const score of ['rises', 'desirability'])
    for (const idle of [2, 3])
      expect(of(idle, score).index).toMatchObject({
        first: 0,
        firstLow: 0,
        firstHigh: 0,
        total: 0,
        totalHigh: 0,
      });
  expect(of(0, 'rises').index?.total).toBeGreaterThan(0.5);
  // The ridge's greatest rise hangs on both, the wider range on more; and the shares of no more than two dims are all.
  const [wide, feet] = [of(0, 'rises').index, of(1, 'rises').index];
  expect((wide?.first ?? 0) + (feet?.total ?? 0)).toBeCloseTo(1, 1);
  expect(of(0, 'shuts')).toMatchObject({ index: null, reason: 'does not vary' });
});

test('the rise of a tent has the indices of the integral', async () => {
  // With feet at 40 mm and widths from 50 to 90 mm, apart: at 180° the ridge stands over the point where both circles
  // meet; variance and both conditional variances by the midpoint rule on 400 by 400 points.
  const rise =
    'wants:\n  - { name: rises, kind: rise, panel: tent left, point: [0, left], from: 180, to: 178, least: 10 }\n';
  const { scores, variables, names } = tentTrials(
    '{ left: { from: 50, to: 90 }, right: { from: 50, to: 90 } }',
    '[40, 40]',
    '[left, right]',
    `${rise}limits: { give: 100 }\n`,
  );
  const n = 400;
  const height = (u: number, v: number) => {
    const [w1, w2] = [50 + 40 * u, 50 + 40 * v];
    const [out, up] = [40 * Math.sin((89 * Math.PI) / 180), 40 * Math.cos((89 * Math.PI) / 180)];
    // At 178°, in the plane that halves the angle between the pages: feet at (∓out, up).
    const x = (w1 * w1 - w2 * w2) / (4 * out);
    const y = up + Math.sqrt(w1 * w1 - (x + out) ** 2);
    const at180 = Math.sqrt(w1 * w1 - ((w1 * w1 - w2 * w2) / 160 + 40) ** 2);
    const tilt = Math.atan2(x, y);
    const at178 = Math.hypot(x, y) * Math.sin((89 * Math.PI) / 180 - Math.abs(tilt));
    return Math.max(at180, at178);
  };
  const grid = Array.from({ length: n }, (_, i) =>
    Array.from({ length: n }, (_, j) => height((i + 0.5) / n, (j + 0.5) / n)),
  );
  const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const variance = (values: number[]) => mean(values.map((value) => value ** 2)) - mean(values) ** 2;
  const whole = variance(grid.flat());
  const first = [
    variance(grid.map(mean)),
    variance(grid[0].map((_, j) => mean(grid.map((row) => row[j])))),
  ].map((v) => v / whole);

  const { indices } = await globalRuns(scores, variables, 7, 4 * 256, 0);
  for (const dim of [0, 1]) {
    const index = indices[dim][names.indexOf('rises')].index;
    expect(index?.firstLow).toBeLessThan(first[dim]);
    expect(index?.firstHigh).toBeGreaterThan(first[dim]);
    expect(index?.totalLow).toBeLessThan(1 - first[1 - dim]);
    expect(index?.totalHigh).toBeGreaterThan(1 - first[1 - dim]);
  }
});

test('where runs are scarce, a screening sets aside what hardly matters; where there are none, nothing is made up', async () => {
  const idle = Array.from({ length: 20 }, (_, k) => `idle${k}: { from: 0, to: 9 }`).join(', ');
  const dims = `{ wide: { from: 50, to: 90 }, feet: { from: 20, to: 40 }, ${idle} }`;
  const { scores, variables, names } = tentTrials(dims, '[feet, feet]', '[wide, wide]', RISE);
  const screened = await globalRuns(scores, variables, 1, 1000, 0);
  expect(screened.note).toContain('20 of 22 dims were set aside');
  expect(screened.indices[0][names.indexOf('rises')].index?.total).toBeGreaterThan(0.5);
  expect(
    screened.indices[5].every(({ index, reason }) => index === null && reason?.startsWith('set aside')),
  ).toBe(true);
  // Two plain samples to each base point, spread through all ranges: those set aside, too.
  const plain = screened.points.filter((point) => point.plain);
  const base = Number(/\((\d+) base points\)/.exec(screened.note)?.[1]);
  expect(plain).toHaveLength(2 * base);
  for (const dim of [0, 21]) {
    const values = plain.map(({ unit }) => unit[dim]).sort((a, b) => a - b);
    for (const [place, value] of values.entries())
      expect(Math.abs(value - (place + 0.5) / values.length)).toBeLessThan(0.05);
  }
  expect(screened.points.length).toBeLessThanOrEqual(1000);
  const poor = await globalRuns(scores, variables, 1, 100, 0);
  expect(poor.note).toBe('Not measured: too few runs for indices: a study of 2,790 dummies would be enough.');
  // And it is, six runs for ten dummies, even where the screening sets no dim aside.
  const alike = batchOf((x) => [x.reduce((sum, value) => sum + value)]);
  const enough = await globalRuns(alike, variables, 1, 0.6 * 2790, 0);
  expect(enough.note).toMatch(/^From [\d,]+ dummies scored for this \((6[4-9]|\d{3}) base points\)\.$/);
  // With plain samples of the study to learn from, the budget goes into more of them; what never varies is said to.
  const few = await globalRuns(scores, variables, 1, 100, 150);
  expect(few.points.map(({ plain }) => plain)).toEqual(new Array(100).fill(true));
  expect(few.indices[0][names.indexOf('rises')].reason).toContain('too few runs');
  expect(few.indices[0][names.indexOf('shuts')].reason).toBe('does not vary');
});

test('a dim that acts where no walk of the screening comes by is not set aside', async () => {
  const variables = Array.from({ length: 22 }, (_, k) => ({
    name: `x${k}`,
    kind: 'real' as const,
    min: 0,
    max: 1,
  }));
  // The walks step on 0, 1/3, 2/3 and 1.
  const hidden = batchOf((x) => [x[0] + x[1] + (x[0] > 0.4 && x[0] < 0.6 ? 4 * x[2] : 0)]);
  const { indices, note } = await globalRuns(hidden, variables, 1, 1000, 0);
  expect(note).toContain('20 of 22 dims, which a screening had set aside, were asked about on 64 of them');
  // V of the last term given x₀: 0.2 · 16/12; of all: 1/12 + 1/12 + 0.2 · 16/3 − 0.4² + 2 · 0, by integration.
  const all = 1 / 6 + (0.2 * 16) / 3 - 0.4 ** 2;
  const index = indices[2][0].index;
  expect(index?.totalLow).toBeLessThan((0.2 * 16) / 12 / all);
  expect(index?.totalHigh).toBeGreaterThan((0.2 * 16) / 12 / all);
  expect(indices[5][0].index?.total).toBe(0);
});

test('of very many runs no more are kept than are worth learning from; all count for the indices', async () => {
  const variables = ['x', 'y'].map((name) => ({ name, kind: 'real' as const, min: 0, max: 1 }));
  const { points, indices, note } = await globalRuns(
    batchOf(([x, y]) => [x + 2 * y]),
    variables,
    1,
    40_000,
    0,
  );
  expect(note).toContain('From 40,000 dummies');
  expect(points).toHaveLength(10_000);
  // Variances in the ratio of 1 to 4.
  expect(indices[0][0].index?.total).toBeCloseTo(0.2, 2);
  expect(indices[1][0].index?.first).toBeCloseTo(0.8, 2);
});
