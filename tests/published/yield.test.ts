import { errorFunction } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { failureCauses } from '../../src/insight/hand/failure-causes.js';
import { cuttingTolerance } from '../../src/insight/hand/tolerance.js';
import { stream } from '../../src/search/random.js';
import { verdictsOf } from '../insight/sensitivity/functions.js';

/** P(|N(0, σ)| ≤ t), by the definition of the error function. */
const within = (t: number, sigma: number) => errorFunction(t / (sigma * Math.SQRT2));

/** The standard normal density. */
const density = (z: number) => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/** ∫ f from a to b (Simpson). */
function integral(f: (x: number) => number, a: number, b: number): number {
  const n = 2000;
  const h = (b - a) / n;
  let sum = f(a) + f(b);
  for (let i = 1; i < n; i++) sum += f(a + i * h) * (i % 2 ? 4 : 2);
  return (sum * h) / 3;
}

const cut = (name: string, sigma: number) => ({ name, sigma });

describe('yield of cases integrated by hand', () => {
  test.each([
    { sigma: 0.3, t: 0.3, known: 0.6827 },
    { sigma: 0.3, t: 0.588, known: 0.95 },
    { sigma: 0.5, t: 0.25, known: 0.3829 },
  ])('one length off by N(0, $sigma), works within $t: $known', async ({ sigma, t, known }) => {
    // The 68-95-99.7 rule and the table of the normal distribution, in any handbook.
    expect(within(t, sigma)).toBeCloseTo(known, 3);
    const verdicts = verdictsOf(([e]) => (Math.abs(e) <= t ? null : 'misfit'));
    const { works } = await cuttingTolerance([cut('strut', sigma)], 4000, stream(4, 'cuts'), verdicts);
    expect(works.low).toBeLessThan(known);
    expect(works.high).toBeGreaterThan(known);
    expect(works.high - works.low).toBeLessThan(0.04);
  });

  test('two lengths whose errors add: the sum is N(0, √(σ₁² + σ₂²))', async () => {
    const known = within(0.5, Math.hypot(0.3, 0.4));
    expect(known).toBeCloseTo(0.6827, 4);
    const verdicts = verdictsOf(([a, b]) => (Math.abs(a + b) <= 0.5 ? null : 'misfit'));
    const cuts = [cut('left strut', 0.3), cut('right strut', 0.4)];
    const { works } = await cuttingTolerance(cuts, 4000, stream(9, 'cuts'), verdicts);
    expect(works.low).toBeLessThan(known);
    expect(works.high).toBeGreaterThan(known);
  });
});

describe('causes of failure of cases integrated by hand', () => {
  test('of two that add, the share cured by making the first exact', async () => {
    // Cured: |b| ≤ t though |a + b| > t. ∫ over b of its density times P(|a + b| > t).
    const [t, sa, sb] = [0.5, 0.4, 0.2];
    const tail = (z: number) => (1 - errorFunction(z / Math.SQRT2)) / 2;
    const cures = (keep: number, exact: number) =>
      integral((x) => (density(x / keep) / keep) * (tail((t - x) / exact) + tail((t + x) / exact)), -t, t) /
      (1 - within(t, Math.hypot(sa, sb)));

    const verdicts = verdictsOf(([b, a]) => (Math.abs(a + b) <= t ? null : 'misfit'));
    const cuts = [cut('short', sb), cut('long', sa), cut('idle', 0.5)];
    const { dummies } = await cuttingTolerance(cuts, 8000, stream(6, 'cuts'), verdicts);
    const { causes } = await failureCauses(cuts, dummies, verdicts, 3, 2000);
    expect(causes.map((cause) => cause.name)).toEqual(['long', 'short', 'idle']);
    const [long, short, idle] = causes.map((cause) => cause.cured);
    expect(long?.low).toBeLessThan(cures(sb, sa));
    expect(long?.high).toBeGreaterThan(cures(sb, sa));
    expect(short?.low).toBeLessThan(cures(sa, sb));
    expect(short?.high).toBeGreaterThan(cures(sa, sb));
    expect(idle?.count).toBe(0);
  });

  test('one error that fails above c: explains (φ(c)² + c² φ(c)² / 2) / p(1 − p)', async () => {
    // E[H₁; z > c] = φ(c), E[H₂; z > c] = c φ(c) / √2, both by parts; p = 0.1587 at c = 1, from the normal table.
    const p = 0.1587;
    const explains = (density(1) ** 2 * 1.5) / (p * (1 - p));
    const verdicts = verdictsOf(([a]) => (a > 0.3 ? 'catches' : null));
    const cuts = [cut('tab', 0.3), cut('other', 0.3)];
    const { dummies } = await cuttingTolerance(cuts, 40_000, stream(7, 'cuts'), verdicts);
    const { causes } = await failureCauses(cuts, dummies, verdicts, 2, 100);
    expect(causes[0].name).toBe('tab');
    expect(Math.abs(causes[0].explains - explains)).toBeLessThan(0.03);
    expect(causes[0].chance).toBeLessThan(1e-12);
    expect(causes[0].cured?.share).toBe(1);
    expect(causes[1].explains).toBeLessThan(0.002);
  });
});
