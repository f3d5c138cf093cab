import { expect, it } from 'vitest';
import { eulerLoad } from '../../src/card/bow.js';
import { closedLoop, endGives } from '../../src/card/closed-loop.js';

type Vector = readonly [number, number];

/** Least energy of two springs that hold the ends of a stiff bar which is too short by m, by small steps downhill. */
function barOnSprings(short: number, soft: number, stiff: number, normal: Vector, other: number): number {
  // From (0, 0), soft along `normal` and stiff across it, to (100, 0), alike every way: the bar turns and shifts.
  const energy = ([x, y, turn]: readonly number[]) => {
    const long = 100 - short;
    const [u, v] = [x + long * Math.cos(turn) - 100, y + long * Math.sin(turn)];
    const along = x * normal[0] + y * normal[1];
    const across = x * normal[1] - y * normal[0];
    return (soft * along * along + stiff * across * across + other * (u * u + v * v)) / 2;
  };
  let place = [0, 0, 0];
  for (let step = short, k = 0; step > short * 1e-7 && k < 1e5; k++) {
    const tries = [0, 1, 2].flatMap((i) =>
      [1, -1].map((sign) => place.map((c, j) => (j === i ? c + (sign * step) / (i === 2 ? 100 : 1) : c))),
    );
    const best = tries.reduce((a, b) => (energy(b) < energy(a) ? b : a));
    if (energy(best) < energy(place)) place = best;
    else step /= 2;
  }
  return energy(place);
}

it.each([
  ['square to the panel that gives', [1, 0], 0.05],
  ['at a slant', [0.6, 0.8], 0.5],
] as const)('a bar that is short pulls as springs in a row do: %s', (_, normal, soft) => {
  const [short, stiff, other] = [0.02, 300, 2];
  // Rigid, each end misses by half of it, along the bar.
  const half = short / 2;
  const [out, within] = [normal[0] ** 2, normal[1] ** 2];
  const compliance = half ** 2 * (out / soft + within / stiff + 1 / other);
  const { energy, scale } = closedLoop(2 * half ** 2, compliance, Number.POSITIVE_INFINITY);
  expect(energy / barOnSprings(short, soft, stiff, normal, other)).toBeCloseTo(1, 2);
  // The pull times what it closes is twice the energy of springs.
  expect(scale * half * short).toBeCloseTo(2 * energy, 12);
});

it('a limb that bows is shortened by what its loop misses beyond what card gives till then', () => {
  // It bows at 4 N/mm, when card has given 2 · 4 of 12 mm²: to there the energy is that of springs, and then the force stays.
  expect(closedLoop(12, 2, 4)).toEqual({ scale: 4, energy: 4 * (12 - 4), bowed: 12 - 8 });
  expect(closedLoop(12, 2, 7)).toEqual({ scale: 6, energy: 36, bowed: 0 });
});

/** Load and energy of a column of hinges with springs, pushed together by `push` against a spring, by small steps downhill. */
function column(bend: number, length: number, push: number, spring: number): number {
  const count = 24;
  const link = length / count;
  // A load that is not quite central, so that it bows.
  const angles = Array.from({ length: count }, (_, i) => 0.05 * Math.cos((Math.PI * (i + 0.5)) / count));
  const slope = new Float64Array(count);
  const energyAt = (at: readonly number[]) => {
    let [sum, ends] = [0, 0];
    for (let i = 0; i < count; i++) {
      ends += link * (1 - Math.cos(at[i]));
      if (i > 0) sum += ((bend / link) * (at[i] - at[i - 1]) ** 2) / 2;
    }
    return sum + (spring * (push - ends) ** 2) / 2;
  };
  for (let k = 0; k < 20000; k++) {
    const ends = angles.reduce((sum, angle) => sum + link * (1 - Math.cos(angle)), 0);
    for (let i = 0; i < count; i++) {
      const before = i > 0 ? angles[i] - angles[i - 1] : 0;
      const after = i + 1 < count ? angles[i + 1] - angles[i] : 0;
      slope[i] = (bend / link) * (before - after) - spring * (push - ends) * link * Math.sin(angles[i]);
    }
    for (let i = 0; i < count; i++) angles[i] -= ((0.2 * link) / bend) * slope[i];
  }
  return energyAt(angles);
}

it('a limb that is pushed too far bows at its load, and the rest of the loop gives no more', () => {
  const [bend, length, spring] = [60, 50, 0.8];
  const load = eulerLoad(bend, length);
  for (const push of [0.1, 0.6]) {
    // One joint alone gives, by 1/k; the push is that of the joint.
    const { energy, scale, bowed } = closedLoop(push ** 2, push ** 2 / spring, load / push);
    expect(energy / column(bend, length, push, spring)).toBeGreaterThan(0.97);
    expect(energy / column(bend, length, push, spring)).toBeLessThan(1.03);
    expect(scale * push).toBeCloseTo(Math.min(load, spring * push), 9);
    expect(bowed > 0).toBe(push * spring > load);
  }
});

it('a strip gives at its end as a cantilever does, and where card is doubled at its root less than at its end', () => {
  const even = new Float64Array(8).fill(60);
  expect(endGives(even, even, 30).out).toBeCloseTo(30 ** 3 / (3 * 60), 9);
  expect(endGives(even, even, 30).along).toBeCloseTo(30 / 60, 12);
  const doubled = (k: number) => even.map((b, i) => (i === k ? 8 * b : b));
  expect(endGives(doubled(7), even, 30).out).toBeLessThan(endGives(doubled(0), even, 30).out);
});
