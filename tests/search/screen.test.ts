import { expect, it, vi } from 'vitest';
import { stream } from '../../src/search/random.js';
import { screened } from '../../src/search/screen.js';
import { Surrogate } from '../../src/search/surrogate.js';
import { tensorBackend } from '../../src/search/tensor-backend.js';
import { Space } from '../../src/search/variables.js';
import { real, scored } from '../support/search-problems.js';

// Training takes seconds where the machine is busy.
vi.setConfig({ testTimeout: 60_000 });

it('picks what is sound and good, and lets some through unscreened', async () => {
  const space = new Space([real('x', 0, 1), real('y', 0, 1), real('z', 0, 1)]);
  // Good near x + y = 1; unsound where z > 0.3.
  const candidate = (unit: Float64Array) => ({
    unit,
    scored: scored(
      [unit[0] + 3 * Math.abs(unit[0] + unit[1] - 1), unit[1] + 3 * Math.abs(unit[0] + unit[1] - 1)],
      Math.max(0, unit[2] - 0.3),
    ),
  });
  const random = stream(1, 'screen');
  const points = (count: number) =>
    Array.from({ length: count }, () => space.snap(Float64Array.from({ length: 3 }, () => random.next())));
  const known = points(600).map(candidate);
  const surrogate = new Surrogate(await tensorBackend(), space, 2, 0, 1);
  for (const one of known) surrogate.add(one);
  await surrogate.train('once', 200);

  const pool = points(400);
  const picked = screened(surrogate, known.slice(0, 40), pool, 40);
  expect(picked).toHaveLength(40);
  expect(new Set(picked).size).toBe(40);
  for (const unit of picked) expect(pool).toContain(unit);
  const sound = (units: Float64Array[]) => units.filter((u) => u[2] <= 0.3).length / units.length;
  const miss = (units: Float64Array[]) =>
    units.reduce((sum, u) => sum + Math.abs(u[0] + u[1] - 1), 0) / units.length;
  // Blindly 30 % would be sound, and miss by a third on average.
  expect(sound(picked)).toBeGreaterThan(0.7);
  expect(miss(picked)).toBeLessThan(0.2);
  // Fifteen per cent are the first of the pool that were not picked, whatever they promise.
  const first = pool.slice(0, 6).filter((unit) => picked.includes(unit));
  expect(first).toHaveLength(6);

  // A pool that is too small is taken whole.
  expect(new Set(screened(surrogate, known.slice(0, 40), pool.slice(0, 5), 40))).toEqual(
    new Set(pool.slice(0, 5)),
  );
});

it('hopes the more of what its networks disagree on, and takes for sound what is likely enough', () => {
  const pool = Array.from({ length: 20 }, (_, i) => Float64Array.of(i / 20));
  const picked = (of: { spread?: (i: number) => number; sound?: (i: number) => number }) => {
    const { spread = () => 0, sound = () => 1 } = of;
    const expect = () => ({
      objectives: pool.map(() => Float64Array.of(5, 5)),
      spread: pool.map((_, i) => Float64Array.of(spread(i), spread(i))),
      violation: new Float64Array(20).fill(0.1),
      sound: Float64Array.from(pool, (_, i) => sound(i)),
    });
    return screened({ expect, soundFrom: 0.3 }, [], pool, 10).map(([u]) => Math.round(20 * u));
  };
  // Of ten, two are the first of the pool that are left; the others are the last eight.
  const last = [12, 13, 14, 15, 16, 17, 18, 19];
  const sorted = (numbers: number[]) => numbers.sort((a, b) => a - b);
  expect(sorted(picked({ spread: (i) => (i < 12 ? 0 : 2) }))).toEqual([0, 1, ...last]);
  expect(sorted(picked({ spread: (i) => (i < 12 ? 2 : 2.1) }))).toEqual([0, 1, ...last]);
  // From odds of 0.3 on: of those below, the likelier ones first.
  expect(sorted(picked({ sound: (i) => (i < 12 ? 0.29 : 0.31) }))).toEqual([0, 1, ...last]);
  expect(sorted(picked({ sound: (i) => 0.01 * (i + 1) }))).toEqual([0, 1, ...last]);
});
